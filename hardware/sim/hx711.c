/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "hx711.h"

#include <math.h>

#include "avr_ioport.h"

#define DATA_BITS 24
#define PULSES_MAX 27
#define OFF_US 60.0
#define PULSE_US 20
#define SETTLING 4

struct chip {
    struct world *world;
    int cell;
    double next; /* cycle at which the conversion under way ends */
    double phase;
    uint32_t index; /* of the conversion under way */
    int unsettled;  /* conversions from the next on that are wrong */
    bool on;
    bool fast;
    bool sck;
    bool waits; /* a conversion that was not read */
    bool dout;
    bool in_vain;
    double sck_rose;
    unsigned pulses; /* since the conversion became ready */
    unsigned gain_pulses;
    unsigned gain_pulses_next;
    uint32_t bits;
};

static struct chip chips[CELLS];
static const unsigned dout_pins[CELLS] = {2, 3};
static uint8_t external;

static void set_dout(struct chip *chip, bool level) {
    avr_t *avr = chip->world->avr;
    unsigned pin = dout_pins[chip->cell];
    chip->dout = level;
    external = (uint8_t)((external & ~(1U << pin)) | (unsigned)level << pin);
    /* So that the level survives each write to the port, pull-ups or not. */
    avr_ioport_external_t state = {.name = 'D', .mask = 0x0C, .value = external};
    avr_ioctl(avr, AVR_IOCTL_IOPORT_SET_EXTERNAL('D'), &state);
    avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('D'), (int)pin), level);
}

static double period(const struct chip *chip) {
    double nominal = CPU_HZ / (chip->fast ? 80 : 10);
    return nominal / (1 + chip->world->ppm[chip->cell] / 1e6);
}

static avr_cycle_count_t end_pulse(avr_t *avr, avr_cycle_count_t when, void *param) {
    (void)avr;
    (void)when;
    struct chip *chip = param;
    if (chip->waits && chip->on) {
        set_dout(chip, false);
    }
    return 0;
}

static void convert(struct chip *chip) {
    struct world *world = chip->world;
    if (world_is_dead(world, chip->cell)) {
        set_dout(chip, true);
        return;
    }
    if (chip->pulses > 0 && chip->pulses < DATA_BITS + 1) {
        world->collisions++;
    } else if (chip->waits) {
        world->unread++;
    }
    if (chip->gain_pulses != chip->gain_pulses_next) {
        chip->gain_pulses = chip->gain_pulses_next;
        chip->unsettled = SETTLING;
    }
    double scale = chip->gain_pulses == 25 ? 1 : chip->gain_pulses == 27 ? 0.5 : 0.25;
    bool settled = chip->unsettled == 0;
    chip->unsettled -= !settled;
    int32_t counts = world_convert(world, chip->cell, chip->index++, scale, settled);
    chip->bits = (uint32_t)counts & 0xFFFFFF;
    chip->pulses = 0;
    if (chip->dout) {
        set_dout(chip, false);
    } else {
        set_dout(chip, true);
        avr_cycle_timer_register_usec(world->avr, PULSE_US, end_pulse, chip);
    }
    chip->waits = true;
}

static avr_cycle_count_t conversion_ends(avr_t *avr, avr_cycle_count_t when,
                                         void *param) {
    struct chip *chip = param;
    (void)when;
    if (!chip->on) {
        return 0;
    }
    convert(chip);
    chip->next += period(chip);
    avr_cycle_count_t next = (avr_cycle_count_t)llrint(chip->next);
    return next > avr->cycle ? next : avr->cycle + 1;
}

/* A conversion begins now. */
static void begin(struct chip *chip, double phase) {
    avr_t *avr = chip->world->avr;
    chip->unsettled = SETTLING;
    chip->next = (double)avr->cycle + phase + period(chip);
    avr_cycle_timer_cancel(avr, conversion_ends, chip);
    avr_cycle_timer_register(avr, (avr_cycle_count_t)(phase + period(chip)),
                             conversion_ends, chip);
}

static void shift(struct chip *chip) {
    if (!chip->waits && chip->pulses == 0) {
        chip->in_vain = true; /* nothing is ready; right only to switch off */
        return;
    }
    chip->pulses++;
    if (chip->pulses <= DATA_BITS) {
        set_dout(chip, (chip->bits >> (DATA_BITS - chip->pulses)) & 1);
        return;
    }
    set_dout(chip, true);
    chip->waits = false;
    if (chip->pulses > PULSES_MAX) {
        chip->world->misread++;
        return;
    }
    chip->gain_pulses_next = chip->pulses;
}

static avr_cycle_count_t switch_off(avr_t *avr, avr_cycle_count_t when, void *param) {
    struct chip *chip = param;
    (void)when;
    if (chip->sck && chip->on) {
        chip->on = false;
        avr_cycle_timer_cancel(avr, conversion_ends, chip);
        chip->waits = false;
        set_dout(chip, true);
    }
    return 0;
}

static void sck_changed(struct avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    struct chip *chip = param;
    avr_t *avr = chip->world->avr;
    bool level = value & 1;
    if (level == chip->sck) {
        return;
    }
    chip->sck = level;
    if (level) {
        chip->sck_rose = (double)avr->cycle;
        avr_cycle_timer_cancel(avr, switch_off, chip);
        avr_cycle_timer_register_usec(avr, (uint32_t)OFF_US, switch_off, chip);
        if (chip->on) {
            shift(chip);
        }
        return;
    }
    avr_cycle_timer_cancel(avr, switch_off, chip);
    if (!chip->on) {
        chip->on = true;
        chip->pulses = 0;
        chip->in_vain = false;
        chip->gain_pulses = chip->gain_pulses_next = 25;
        begin(chip, chip->phase);
        return;
    }
    double high_us = ((double)avr->cycle - chip->sck_rose) / (CPU_HZ / 1e6);
    chip->world->misread += chip->in_vain;
    chip->in_vain = false;
    if (high_us > chip->world->sck_high_max_us) {
        chip->world->sck_high_max_us = high_us;
    }
}

static void rate_changed(struct avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    (void)param;
    for (int cell = 0; cell < CELLS; cell++) {
        struct chip *chip = &chips[cell];
        bool fast = value & 1;
        if (fast != chip->fast) {
            chip->fast = fast;
            if (chip->on) {
                begin(chip, 0);
            }
        }
    }
}

void hx711_attach(struct world *world) {
    avr_t *avr = world->avr;
    for (int cell = 0; cell < CELLS; cell++) {
        struct chip *chip = &chips[cell];
        *chip = (struct chip){.world = world, .cell = cell, .on = true};
        /* Two chips never begin together. */
        chip->phase = (cell == 0 ? 0.31 : 0.72) * CPU_HZ / 80;
        chip->gain_pulses = chip->gain_pulses_next = 25;
        set_dout(chip, true);
        begin(chip, chip->phase);
        avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), cell),
                                sck_changed, chip);
    }
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 2),
                            rate_changed, NULL);
}
