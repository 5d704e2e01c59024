/* What the two ADC drivers and the board share. */
#ifndef BOARD_H
#define BOARD_H

#include <stdint.h>

#include "device.h"

/* Time in microseconds since reset of a reading of timer 1, which counts half
 * microseconds. Call it with interrupts off, less than 16 ms after the reading. */
uint32_t board_us_at(uint16_t ticks);
/* Time now; call it from the main loop. */
uint32_t board_now_us(void);

/* An ADC driver; one of them is linked in. */

/* Fills in what `config` says of the ADC, functions included. */
void adc_describe(struct device_config *config);
/* Sets up pins and chips; interrupts are still off. */
void adc_begin(void);
/* Whether a conversion waits to be taken; call it with interrupts off. */
bool adc_waits(void);

#endif
