/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What simavr 1.6 does differently from the chip, put right from outside through
 * its public headers. Each was measured; without them the line is 9.1 % too slow
 * and SPI some fifty times. */
#ifndef CORRECTIONS_H
#define CORRECTIONS_H

#include "avr_spi.h"
#include "avr_uart.h"
#include "sim_avr.h"

avr_uart_t *find_uart(avr_t *avr);
avr_spi_t *find_spi(avr_t *avr);
void correct_uart(avr_t *avr);
void correct_spi(avr_t *avr);
/* Cycles that a byte takes on the line as the firmware set it; 0 before it did. */
unsigned uart_byte_cycles(avr_t *avr);

#endif
