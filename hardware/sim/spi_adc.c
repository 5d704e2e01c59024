/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spi_adc.h"

#include <math.h>
#include <string.h>

#include "avr_ioport.h"
#include "avr_spi.h"
#include "corrections.h"

#define CS_PIN 2
#define DRDY_PIN 0
#define FRAME 12
#define WORD 3
#define SETTLING 3
#define MODULATOR_HZ 4096000.0
#define PULSE_US 4

static struct {
    struct world *world;
    avr_irq_t *miso;
    double next;
    double hz;
    uint32_t index;
    int unsettled;
    unsigned gain;
    uint8_t answer; /* first byte of what answers a register written, or 0 */
    bool reset_seen; /* in the status until the host takes note */
    bool selected;
    bool waits;
    unsigned at; /* byte in the frame */
    uint8_t out[FRAME];
    uint8_t in[FRAME];
} chip;

static void set_drdy(bool level) {
    avr_t *avr = chip.world->avr;
    avr_ioport_external_t state = {
        .name = 'B', .mask = 1U << DRDY_PIN, .value = (unsigned)level << DRDY_PIN};
    avr_ioctl(avr, AVR_IOCTL_IOPORT_SET_EXTERNAL('B'), &state);
    avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), DRDY_PIN), level);
}

static uint16_t crc16(const uint8_t *bytes, size_t size) {
    uint16_t crc = 0xFFFF;
    for (size_t i = 0; i < size; i++) {
        crc = (uint16_t)(crc ^ bytes[i] << 8);
        for (int bit = 0; bit < 8; bit++) {
            crc = (uint16_t)(crc & 0x8000 ? crc << 1 ^ 0x1021 : crc << 1);
        }
    }
    return crc;
}

static avr_cycle_count_t fall(avr_t *avr, avr_cycle_count_t when, void *param) {
    (void)avr;
    (void)when;
    (void)param;
    set_drdy(false);
    return 0;
}

static double period(void) {
    return CPU_HZ / chip.hz / (1 + chip.world->ppm[0] / 1e6);
}

/* All registers as after power-up. */
static void reset(void) {
    chip.hz = MODULATOR_HZ / 1024;
    chip.gain = 1;
    chip.reset_seen = true;
    chip.unsettled = SETTLING;
}

static avr_cycle_count_t conversion_ends(avr_t *avr, avr_cycle_count_t when,
                                         void *param) {
    (void)when;
    (void)param;
    struct world *world = chip.world;
    if (world_now_s(world) >= world->brownout_s) {
        world->brownout_s = HUGE_VAL;
        reset();
    }
    if (!world_is_dead(world, 0)) {
        world->unread += chip.waits;
        world->collisions += chip.selected;
        bool settled = chip.unsettled == 0;
        chip.unsettled -= !settled;
        memset(chip.out, 0, sizeof chip.out);
        chip.out[0] = chip.reset_seen ? 0x05 : 0x01; /* status: 24-bit words, reset */
        if (chip.answer != 0) {
            chip.out[0] = chip.answer; /* in its place, once */
            chip.answer = 0;
        }
        for (int cell = 0; cell < CELLS; cell++) {
            uint32_t bits = (uint32_t)world_convert(
                world, cell, chip.index, (double)chip.gain / 128, settled);
            for (int i = 0; i < WORD; i++) {
                chip.out[WORD + WORD * cell + i] = (uint8_t)(bits >> (16 - 8 * i));
            }
        }
        uint16_t crc = crc16(chip.out, FRAME - WORD);
        chip.out[FRAME - WORD] = (uint8_t)(crc >> 8);
        chip.out[FRAME - WORD + 1] = (uint8_t)crc;
        chip.index++;
        if (chip.waits) {
            set_drdy(true); /* unread: a pulse tells of the next */
            avr_cycle_timer_register_usec(avr, PULSE_US, fall, NULL);
        } else {
            set_drdy(false);
        }
        chip.waits = true;
    }
    chip.next += period();
    avr_cycle_count_t next = (avr_cycle_count_t)llrint(chip.next);
    return next > avr->cycle ? next : avr->cycle + 1;
}

static void begin(void) {
    avr_t *avr = chip.world->avr;
    chip.unsettled = SETTLING;
    chip.next = (double)avr->cycle + period();
    avr_cycle_timer_cancel(avr, conversion_ends, NULL);
    avr_cycle_timer_register(avr, (avr_cycle_count_t)period(), conversion_ends, NULL);
}

static void obey(void) {
    unsigned word = (unsigned)chip.in[0] << 8 | chip.in[1];
    unsigned value = (unsigned)chip.in[3] << 8 | chip.in[4];
    if (word == 0) {
        return; /* plain reading */
    }
    if ((word & 0xE000) == 0x6000) {
        chip.answer = (uint8_t)(0x40 | (word >> 8 & 0x1F));
    }
    if (word == 0x0011) { /* reset */
        reset();
        begin();
    } else if (word == (0x6000 | 2 << 7)) { /* mode register */
        chip.reset_seen = (value & 0x0400) != 0;
    } else if (word == (0x6000 | 3 << 7)) { /* clock register */
        chip.hz = MODULATOR_HZ / (double)(128U << ((value >> 2) & 7));
        begin();
    } else if (word == (0x6000 | 4 << 7)) { /* gain register */
        chip.gain = 1U << (value & 7);
        chip.unsettled = SETTLING;
    } else {
        chip.world->misread++;
    }
}

static void cs_changed(struct avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    (void)param;
    bool selected = !(value & 1);
    if (selected == chip.selected) {
        return;
    }
    chip.selected = selected;
    if (selected) {
        chip.at = 0;
        return;
    }
    if (chip.at != FRAME) {
        chip.world->misread++;
        return;
    }
    chip.waits = false;
    set_drdy(true);
    obey();
}

static void mosi(struct avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    (void)param;
    if (!chip.selected || chip.at >= FRAME) {
        chip.world->misread++;
        return;
    }
    chip.in[chip.at] = (uint8_t)value;
    avr_raise_irq(chip.miso, chip.out[chip.at]);
    chip.at++;
}

void spi_adc_attach(struct world *world) {
    avr_t *avr = world->avr;
    chip.world = world;
    reset();
    avr_spi_t *spi = find_spi(avr);
    chip.miso = spi->io.irq + SPI_IRQ_INPUT;
    avr_irq_register_notify(spi->io.irq + SPI_IRQ_OUTPUT, mosi, NULL);
    avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_IOPORT_GETIRQ('B'), CS_PIN),
                            cs_changed, NULL);
    set_drdy(true);
    begin();
}
