/* A two-channel ADC that converts both cells at the same instant: one stream.
 *
 * Written for the frame and the registers of the ADS131M02 with a clock of
 * 8.192 MHz: 24-bit words, status, two channels, CRC. Not verified on silicon:
 * compare each register below with the data sheet before you trust a number.
 *
 * Data-ready is wired to the capture pin of timer 1, so the time of a conversion is
 * taken by hardware and does not depend on what the processor was doing. The
 * interrupt reads the conversion at once into a ring of 8, since at 4 kHz making a
 * frame takes longer than a conversion.
 *
 * Wiring: README.md.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/crc16.h>
#include <util/delay.h>

#include "board.h"

#define CS_PIN PB2 /* the pin that must be an output while SPI is master */
#define DRDY_PIN PB0 /* ICP1 */
#define MOSI_PIN PB3
#define SCK_PIN PB5

#define CHANNELS 2
#define WORD 3                               /* bytes in a word */
#define CHECKED (WORD + WORD * CHANNELS)     /* status and channels */
#define FRAME (CHECKED + WORD)               /* and the CRC */
#define RING 8                               /* 2 ms at 4 kHz */

#define SETTLING 3 /* conversions, third-order sinc filter */
#define RESET_US 10
#define POWER_UP_MS 1

#define COMMAND_RESET 0x0011
#define COMMAND_WRITE(address) (0x6000 | (address) << 7) /* one register */
/* In the first byte of a frame: */
#define STATUS_RESET 0x04 /* the chip began anew */
#define ANSWER 0x40       /* a register was written by the frame before */
#define ANSWER_MASK 0xE0
#define REGISTER_MODE 0x02
#define REGISTER_CLOCK 0x03
#define REGISTER_GAIN 0x04
#define MODE_NOTED 0x0110 /* as after a reset, and the reset is taken note of */
#define CLOCK_BASE 0x0302 /* both channels on, high-resolution mode */
#define CLOCK_OSR(code) (CLOCK_BASE | (code) << 2)
#define GAIN_BOTH(code) ((code) | (code) << 4) /* the gain is 2 to the code */

static const uint32_t rates_mhz[] = {1000000, 2000000, 4000000};
static const uint8_t osr_codes[] = {5, 4, 3}; /* 4096, 2048, 1024 at 4.096 MHz */
static const uint8_t gains[] = {128, 64, 32};
static const uint8_t gain_codes[] = {7, 6, 5};

struct reading {
    uint32_t time_us;
    uint8_t lost; /* before it, because the ring was full */
    uint8_t bytes[FRAME];
};

static volatile struct reading ring[RING];
static volatile uint8_t ring_in;  /* written by the interrupt */
static volatile uint8_t ring_out; /* written by the main loop */
static uint8_t lost_waiting;      /* of the interrupt alone */
static uint8_t rate_index;        /* what the chip was told */
static uint8_t gain_index;

static uint8_t exchange(uint8_t byte) {
    SPDR = byte;
    while (!(SPSR & _BV(SPIF))) {
    }
    return SPDR;
}

ISR(TIMER1_CAPT_vect) {
    uint32_t time_us = board_us_at(ICR1);
    uint8_t in = ring_in;
    uint8_t next = (in + 1) & (RING - 1);
    if (next == ring_out) {
        if (lost_waiting < UINT8_MAX) {
            lost_waiting++;
        }
        return;
    }
    volatile struct reading *reading = &ring[in];
    PORTB &= (uint8_t)~_BV(CS_PIN);
    for (uint8_t i = 0; i < FRAME; i++) {
        reading->bytes[i] = exchange(0);
    }
    PORTB |= _BV(CS_PIN);
    reading->time_us = time_us;
    reading->lost = lost_waiting;
    lost_waiting = 0;
    ring_in = next;
}

static int32_t counts_at(const volatile uint8_t *bytes) {
    uint32_t bits = (uint32_t)bytes[0] << 16 | (uint32_t)bytes[1] << 8 | bytes[2];
    return (int32_t)(bits ^ 0x800000UL) - 0x800000L;
}

/* CRC-16 with polynomial 1021 and start FFFF, in the upper bytes of its word. */
static bool is_sound(const volatile uint8_t *bytes) {
    uint16_t crc = 0xFFFF;
    for (uint8_t i = 0; i < CHECKED; i++) {
        crc = _crc_xmodem_update(crc, bytes[i]);
    }
    return bytes[CHECKED] == (uint8_t)(crc >> 8) && bytes[CHECKED + 1] == (uint8_t)crc;
}

static uint8_t capped(uint16_t count) {
    if (count > UINT8_MAX) {
        return UINT8_MAX;
    }
    return (uint8_t)count;
}

static void send_word(uint16_t word) {
    (void)exchange((uint8_t)(word >> 8));
    (void)exchange((uint8_t)word);
    (void)exchange(0);
}

/* Sends a command and up to one value in a frame of its own. The data-ready
 * interrupt must be off. */
static void command(uint16_t word, uint16_t value) {
    PORTB &= (uint8_t)~_BV(CS_PIN);
    send_word(word);
    send_word(value);
    send_word(0);
    send_word(0);
    PORTB |= _BV(CS_PIN);
}

static void write_register(uint8_t address, uint16_t value) {
    TIMSK1 &= (uint8_t)~_BV(ICIE1);
    command((uint16_t)COMMAND_WRITE(address), value);
    TIFR1 = _BV(ICF1); /* what became ready meanwhile was converted the old way */
    TIMSK1 |= _BV(ICIE1);
}

/* Conversions not to be trusted from now on: those that wait in the ring, which the
 * interrupt went on filling while the last frame was made, and those that settle. */
static uint8_t untrusted(void) {
    uint8_t waiting = (uint8_t)(ring_in - ring_out) & (RING - 1);
    return (uint8_t)(waiting + SETTLING);
}

/* Tells the chip all that it must know. */
static void set_up(void) {
    write_register(REGISTER_MODE, MODE_NOTED);
    write_register(REGISTER_GAIN, (uint16_t)GAIN_BOTH(gain_codes[gain_index]));
    write_register(REGISTER_CLOCK, (uint16_t)CLOCK_OSR(osr_codes[rate_index]));
}

/* Whether the chip lost its power for a moment, and with it gain and rate: its counts
 * would be sound and mean another force. One that does not stop saying so is believed
 * once. */
static bool has_begun_anew(uint8_t status) {
    static bool said;
    if ((status & ANSWER_MASK) == ANSWER) {
        return false; /* no status, but the answer to a register that was written */
    }
    bool before = said;
    said = (status & STATUS_RESET) != 0;
    return said && !before;
}

static bool take(void *context, struct device_conversion *conversion) {
    (void)context;
    static uint8_t damaged;   /* conversions before that could not be used */
    static uint8_t unsettled; /* conversions that a chip begun anew still gives */
    while (ring_out != ring_in) {
        const volatile struct reading *reading = &ring[ring_out];
        uint16_t lost = (uint16_t)(reading->lost + damaged);
        bool sound = is_sound(reading->bytes);
        if (sound && has_begun_anew(reading->bytes[0])) {
            set_up();
            unsettled = untrusted(); /* with this one */
        }
        if (sound && unsettled > 0) {
            unsettled--;
            sound = false;
        }
        if (sound) {
            conversion->stream = 0;
            conversion->lost = capped(lost);
            conversion->time_us = reading->time_us;
            for (uint8_t i = 0; i < CHANNELS; i++) {
                conversion->counts[i] = counts_at(&reading->bytes[WORD + WORD * i]);
            }
            damaged = 0;
        } else {
            damaged = capped((uint16_t)(lost + 1));
        }
        ring_out = (ring_out + 1) & (RING - 1);
        if (sound) {
            return true;
        }
    }
    return false;
}

static uint8_t set_rate(void *context, uint8_t index) {
    (void)context;
    rate_index = index;
    write_register(REGISTER_CLOCK, (uint16_t)CLOCK_OSR(osr_codes[index]));
    return untrusted();
}

static uint8_t set_gain(void *context, uint8_t index) {
    (void)context;
    gain_index = index;
    write_register(REGISTER_GAIN, (uint16_t)GAIN_BOTH(gain_codes[index]));
    return untrusted();
}

void adc_describe(struct device_config *config) {
    config->take = take;
    config->set_rate = set_rate;
    config->set_gain = set_gain;
    config->rates_mhz = rates_mhz;
    config->gains = gains;
    config->adc = "ADS131M02";
    config->rates = sizeof rates_mhz / sizeof rates_mhz[0];
    config->rate_index = 0;
    config->gain_count = sizeof gains;
    config->gain_index = 0;
    config->streams = 1;
    config->channels = CHANNELS;
    config->adc_bits = 24;
    config->settling = SETTLING;
}

void adc_begin(void) {
    PORTB |= _BV(CS_PIN) | _BV(DRDY_PIN); /* pulled up: no chip is never ready */
    DDRB |= _BV(CS_PIN) | _BV(MOSI_PIN) | _BV(SCK_PIN);
    SPCR = _BV(SPE) | _BV(MSTR) | _BV(CPHA); /* mode 1 */
    SPSR = _BV(SPI2X);                       /* 8 MHz */
    _delay_ms(POWER_UP_MS);
    command(COMMAND_RESET, 0);
    _delay_us(RESET_US);
    set_up();
}

bool adc_waits(void) {
    return ring_in != ring_out;
}
