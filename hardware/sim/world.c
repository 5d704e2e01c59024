/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "world.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* An open input is pulled to the lower stop by the board's resistors, see
 * README.md of the hardware. */
#define OPEN_COUNTS COUNTS_BOTTOM

void world_begin(struct world *world) {
    memset(world, 0, sizeof *world);
    for (int cell = 0; cell < CELLS; cell++) {
        world->dead_s[cell] = world->open_s[cell] = NEVER;
    }
    world->brownout_s = NEVER;
    world->chance = 1;
}

static void fail(const char *path, const char *what) {
    fprintf(stderr, "simulator: %s: %s\n", path, what);
    exit(2);
}

void profile_read(struct profile *profile, const char *path) {
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        fail(path, "cannot be read");
        return;
    }
    char line[256];
    size_t capacity = 0;
    bool has_mode = false;
    while (fgets(line, sizeof line, file) != NULL) {
        if (line[0] == '#' || line[0] == '\n') {
            continue;
        }
        if (!has_mode) {
            has_mode = true;
            if (strcmp(line, "mode linear\n") == 0) {
                profile->mode = PROFILE_LINEAR;
            } else if (strcmp(line, "mode step\n") == 0) {
                profile->mode = PROFILE_STEP;
            } else if (strcmp(line, "mode index\n") == 0) {
                profile->mode = PROFILE_INDEX;
            } else {
                fail(path, "must begin with mode linear, step or index");
            }
            continue;
        }
        if (profile->rows == capacity) {
            capacity = capacity ? 2 * capacity : 1024;
            profile->time_s = realloc(profile->time_s, capacity * sizeof(double));
            profile->counts = realloc(profile->counts, capacity * sizeof(int32_t[2]));
            if (profile->time_s == NULL || profile->counts == NULL) {
                fail(path, "no memory");
            }
        }
        double time_s = 0;
        int32_t *counts = profile->counts[profile->rows];
        int found = profile->mode == PROFILE_INDEX
                        ? sscanf(line, "%d %d", &counts[0], &counts[1]) + 1
                        : sscanf(line, "%lf %d %d", &time_s, &counts[0], &counts[1]);
        if (found != 3) {
            fail(path, line);
        }
        profile->time_s[profile->rows++] = time_s;
    }
    (void)fclose(file);
    if (profile->rows == 0) {
        fail(path, "holds no counts");
    }
}

static double scripted(const struct profile *profile, int cell, uint32_t index,
                       double time_s) {
    if (profile->rows == 0) {
        return 0;
    }
    size_t last = profile->rows - 1;
    if (profile->mode == PROFILE_INDEX) {
        return profile->counts[index < last ? index : last][cell];
    }
    size_t row = 0;
    while (row < last && profile->time_s[row + 1] <= time_s) {
        row++;
    }
    double counts = profile->counts[row][cell];
    if (profile->mode == PROFILE_STEP || row == last || time_s < profile->time_s[0]) {
        return counts;
    }
    double share = (time_s - profile->time_s[row]) /
                   (profile->time_s[row + 1] - profile->time_s[row]);
    return counts + share * (profile->counts[row + 1][cell] - counts);
}

double world_now_s(const struct world *world) {
    return (double)world->avr->cycle / CPU_HZ;
}

/* xorshift64*: repeatable, the same everywhere. */
double world_chance(struct world *world) {
    world->chance ^= world->chance >> 12;
    world->chance ^= world->chance << 25;
    world->chance ^= world->chance >> 27;
    return (double)((world->chance * 2685821657736338717ULL) >> 11) / 9007199254740992.0;
}

static double gaussian(struct world *world) {
    double radius = sqrt(-2 * log(world_chance(world) + 1e-300));
    return radius * cos(2 * acos(-1) * world_chance(world));
}

bool world_is_dead(const struct world *world, int cell) {
    return world_now_s(world) >= world->dead_s[cell];
}

int32_t world_convert(struct world *world, int cell, uint32_t index, double scale,
                      bool settled) {
    double now_s = world_now_s(world);
    double counts = scripted(&world->profile, cell, index, now_s) * scale;
    if (world->noise > 0) {
        counts += world->noise * gaussian(world);
    }
    if (!settled) {
        counts = counts / 2 - 12345; /* anything but right */
    }
    if (now_s >= world->open_s[cell]) {
        counts = OPEN_COUNTS;
    }
    counts = fmin(fmax(counts, COUNTS_BOTTOM), COUNTS_TOP);
    int32_t whole = (int32_t)lrint(counts);
    if (world->truth != NULL) {
        fprintf(world->truth, "%d,%u,%.3f,%d,%d\n", cell, index, now_s * 1e6, whole,
                settled);
    }
    return whole;
}
