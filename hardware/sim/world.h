/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What surrounds the board: scripted forces, faults, and the record of what truly
 * happened. */
#ifndef WORLD_H
#define WORLD_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

#include "sim_avr.h"

#define CELLS 2
#define CPU_HZ 16000000.0
#define COUNTS_TOP 8388607
#define COUNTS_BOTTOM (-8388608)
#define NEVER 1e18

enum profile_mode { PROFILE_LINEAR, PROFILE_STEP, PROFILE_INDEX };

/* Counts as a script has them: by time, or by the number of the conversion. */
struct profile {
    enum profile_mode mode;
    double *time_s; /* not with PROFILE_INDEX */
    int32_t (*counts)[CELLS];
    size_t rows;
};

struct world {
    avr_t *avr;
    struct profile profile;
    FILE *truth; /* or NULL */
    double noise; /* standard deviation, counts */
    double ppm[CELLS]; /* of each chip's oscillator */
    double dead_s[CELLS]; /* from when on a chip gives nothing */
    double open_s[CELLS]; /* from when on a cell is disconnected */
    double brownout_s; /* when the SPI chip begins anew, as after power-up */
    uint64_t chance;
    /* What the chips saw of the firmware. */
    unsigned unread;     /* conversions that were never read */
    unsigned collisions; /* conversions that ended while one was read */
    unsigned misread;    /* read with a wrong number of pulses or bytes */
    double sck_high_max_us;
};

void world_begin(struct world *world);
/* Ends the program with a message where the file is not as it should be. */
void profile_read(struct profile *profile, const char *path);

/* Counts of a cell at the end of conversion number `index`, written to the truth.
 * `scale` is the gain against the profile's; an unsettled conversion is wrong. */
int32_t world_convert(struct world *world, int cell, uint32_t index, double scale,
                      bool settled);
bool world_is_dead(const struct world *world, int cell);
double world_now_s(const struct world *world);
double world_chance(struct world *world); /* 0 to 1 */

#endif
