/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two HX711, each with a clock line and an oscillator of its own.
 *
 * After the data sheet: conversions at 10 or 80 SPS, DOUT low when one is ready,
 * bits on rising SCK from the highest, 25, 26 or 27 pulses for the next gain, SCK
 * high for more than 60 us switches off, four conversions to settle after power-up
 * and each change of rate or gain. Unsettled conversions come, and are wrong.
 *
 * Assumed, since the data sheet does not say: a conversion that ends while the one
 * before is unread pulses DOUT high for 20 us; one that ends while a reading is
 * under way begins the shifting anew.
 */
#ifndef HX711_H
#define HX711_H

#include "world.h"

void hx711_attach(struct world *world);

#endif
