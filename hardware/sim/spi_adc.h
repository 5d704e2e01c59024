/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A two-channel simultaneous 24-bit ADC on SPI, as far as the firmware uses it:
 * words of 24 bits, frames of status, two channels and a CRC-16; reset, writing of
 * the clock and the gain register; data-ready low until a frame is read; three
 * conversions to settle. Registers and frame are those that `adc_spi.c` names. */
#ifndef SPI_ADC_H
#define SPI_ADC_H

#include "world.h"

void spi_adc_attach(struct world *world);

#endif
