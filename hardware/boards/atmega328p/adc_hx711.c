/* Two HX711, one for each load cell, a clock line and a stream each.
 *
 * Why not one clock line for both: each chip has an oscillator of its own. With a
 * shared line a chip is clocked out while the other one converts, which loses
 * conversions and can corrupt them.
 *
 * A chip pulls DOUT low when a conversion is ready; that edge is an interrupt and
 * gives the time. The main loop clocks the 24 bits out, then 1 or 3 pulses more,
 * which choose the gain of the next conversion. Numbers below are from the data
 * sheet of the HX711 (AVIA Semiconductor).
 *
 * Wiring: README.md.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>
#include <util/delay.h>

#include "board.h"

#define CHIPS 2
#define SCK_PORT PORTB
#define SCK_DDR DDRB
#define RATE_PIN PB2 /* both chips: low 10 SPS, high 80 SPS */
#define DOUT_PINS PIND
#define DOUT_DDR DDRD
#define DOUT_PULLS PORTD

#define SETTLING 4 /* conversions after a change of rate or gain, and power-up */
#define OFF_US 100 /* SCK high for longer than 60 us switches the chip off */

/* What the chips differ in. DOUT 0 and 1 are INT0 and INT1. */
static const uint8_t sck_mask[CHIPS] = {_BV(PB0), _BV(PB1)};
static const uint8_t dout_mask[CHIPS] = {_BV(PD2), _BV(PD3)};
static const uint8_t interrupt_mask[CHIPS] = {_BV(INT0), _BV(INT1)};

static const uint32_t rates_mhz[] = {10000, 80000};
static const uint8_t gains[] = {128, 64};
static const uint8_t pulses[] = {25, 27}; /* for each gain */

struct chip {
    volatile uint32_t ready_us; /* of the conversion that waits, or was last */
    volatile uint8_t unread;    /* conversions that waited when the next came */
    volatile bool ready;
};

static struct chip chips[CHIPS];
static uint8_t gain_index = 0;
static uint32_t overdue_us; /* longer than two periods */

static void count_unread(struct chip *chip) {
    if (chip->unread < UINT8_MAX) {
        chip->unread++;
    }
}

static void note_ready(struct chip *chip) {
    if (chip->ready) {
        count_unread(chip);
    }
    chip->ready_us = board_us_at(TCNT1);
    chip->ready = true;
}

ISR(INT0_vect) {
    note_ready(&chips[0]);
}

ISR(INT1_vect) {
    note_ready(&chips[1]);
}

static bool is_low(uint8_t number) {
    return (DOUT_PINS & dout_mask[number]) == 0;
}

/* Clocks a conversion out; its edges must not interrupt meanwhile. SCK must not be
 * high for 60 us, so no interrupt may come between up and down. */
static int32_t clock_out(uint8_t number) {
    uint8_t mask = sck_mask[number];
    uint8_t wanted = pulses[gain_index];
    uint32_t bits = 0;
    for (uint8_t pulse = 0; pulse < wanted; pulse++) {
        ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
            SCK_PORT |= mask;
            _delay_us(0.3); /* at least 0.2 us high, and at most 0.1 us to the bit */
            SCK_PORT &= (uint8_t)~mask;
        }
        if (pulse < 24) {
            bits = bits << 1 | (is_low(number) ? 0 : 1);
        }
    }
    return (int32_t)(bits ^ 0x800000UL) - 0x800000L;
}

enum outcome {
    NOTHING, /* nothing was ready: a disturbance made the edge, or no chip is there */
    SOUND,
    BROKEN /* a conversion was there and could not be read */
};

/* Reads the conversion that waits. After the last pulse DOUT must be high; if it is
 * not, the chip began anew in between, or the line is stuck. */
static enum outcome read(uint8_t number, int32_t *counts) {
    if (!is_low(number)) {
        return NOTHING;
    }
    *counts = clock_out(number);
    return is_low(number) ? BROKEN : SOUND;
}

static bool take_from(uint8_t number, struct device_conversion *conversion) {
    struct chip *chip = &chips[number];
    if (!chip->ready) {
        /* DOUT low without an edge that was seen: the chip would wait for ever.
         * Reading frees it; when that conversion was ready nobody knows, so it is
         * as good as lost. */
        if (is_low(number) && board_now_us() - chip->ready_us > overdue_us) {
            int32_t counts;
            EIMSK &= (uint8_t)~interrupt_mask[number];
            if (!chip->ready) { /* else the edge came after all */
                if (read(number, &counts) == SOUND) {
                    count_unread(chip);
                }
                chip->ready_us = board_now_us();
                EIFR = interrupt_mask[number];
            }
            EIMSK |= interrupt_mask[number];
        }
        return false;
    }
    EIMSK &= (uint8_t)~interrupt_mask[number];
    enum outcome outcome = read(number, &conversion->counts[0]);
    chip->ready = false;
    if (outcome == SOUND) {
        conversion->stream = number;
        conversion->time_us = chip->ready_us;
        conversion->lost = chip->unread;
        chip->unread = 0;
    } else if (outcome == BROKEN) {
        count_unread(chip);
    }
    EIFR = interrupt_mask[number]; /* the bits made edges too */
    EIMSK |= interrupt_mask[number];
    return outcome == SOUND;
}

static bool take(void *context, struct device_conversion *conversion) {
    (void)context;
    for (uint8_t number = 0; number < CHIPS; number++) {
        if (take_from(number, conversion)) {
            return true;
        }
    }
    return false;
}

static void use_rate(uint8_t index) {
    if (index == 0) {
        SCK_PORT &= (uint8_t)~_BV(RATE_PIN);
    } else {
        SCK_PORT |= _BV(RATE_PIN);
    }
    overdue_us = 2500000000UL / rates_mhz[index];
}

static uint8_t set_rate(void *context, uint8_t index) {
    (void)context;
    use_rate(index);
    return SETTLING;
}

static uint8_t set_gain(void *context, uint8_t index) {
    (void)context;
    gain_index = index;
    /* The conversion under way still has the old gain; reading it sets the new. */
    return 1 + SETTLING;
}

void adc_describe(struct device_config *config) {
    config->take = take;
    config->set_rate = set_rate;
    config->set_gain = set_gain;
    config->rates_mhz = rates_mhz;
    config->gains = gains;
    config->adc = "HX711";
    config->rates = sizeof rates_mhz / sizeof rates_mhz[0];
    config->rate_index = 1;
    config->gain_count = sizeof gains;
    config->gain_index = gain_index;
    config->streams = CHIPS;
    config->channels = 1;
    config->adc_bits = 24;
    /* A chip that had no power begins with gain 128 and is told better by the first
     * reading, as in `set_gain`. */
    config->settling = 1 + SETTLING;
}

void adc_begin(void) {
    DOUT_DDR &= (uint8_t)~(dout_mask[0] | dout_mask[1]);
    DOUT_PULLS |= dout_mask[0] | dout_mask[1]; /* no chip reads as never ready */
    SCK_DDR |= sck_mask[0] | sck_mask[1] | _BV(RATE_PIN);
    use_rate(1);
    /* A reset of this board alone leaves the chips as they were: start them anew. */
    SCK_PORT |= sck_mask[0] | sck_mask[1];
    _delay_us(OFF_US);
    SCK_PORT &= (uint8_t) ~(sck_mask[0] | sck_mask[1]);
    EICRA = _BV(ISC01) | _BV(ISC11); /* falling edges */
    EIFR = interrupt_mask[0] | interrupt_mask[1];
    EIMSK |= interrupt_mask[0] | interrupt_mask[1];
}

bool adc_waits(void) {
    return chips[0].ready || chips[1].ready;
}
