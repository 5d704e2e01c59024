/* The ATmega328P at 16 MHz: clock, serial line, serial number, main loop.
 *
 * Rules:
 * - Interrupts do little and leave the rest to the main loop. Each variable that
 *   crosses is written by one side alone, or with interrupts off.
 * - Nothing but the ADC interrupts may keep another interrupt waiting for long: the
 *   line brings a byte every 20 us and holds two.
 */
#include "board.h"

#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <util/atomic.h>

#if F_CPU != 16000000UL
#error "timers and line speed are worked out for 16 MHz"
#endif

#define BAUD 500000UL
#define BAUD_DIVISOR (F_CPU / 8 / BAUD - 1) /* with U2X: exact at 16 MHz */
#define TICK_US 1000 /* the main loop turns at least as often */
#define AGE_MAX_US 18000 /* 20 ms less a tick and the longest turn */

/* Time: timer 1 counts half microseconds and turns every 32.768 ms. 2^17 turns make
 * the 2^32 us after which the protocol wants the time to wrap, so it does by itself. */

#define TURN_US 32768UL

static volatile uint32_t turns_us;

ISR(TIMER1_OVF_vect) {
    turns_us += TURN_US;
}

uint32_t board_us_at(uint16_t ticks) {
    uint32_t time_us = turns_us + (ticks >> 1);
    /* A turn that ended but was not counted yet, where the reading is after it. */
    if ((TIFR1 & _BV(TOV1)) && ticks < 0x8000) {
        time_us += TURN_US;
    }
    return time_us;
}

uint32_t board_now_us(void) {
    uint32_t now_us = 0;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        now_us = board_us_at(TCNT1);
    }
    return now_us;
}

/* Wakes the main loop; nothing else is to be done. */
EMPTY_INTERRUPT(TIMER0_COMPA_vect);

static void clocks_begin(void) {
    TCCR1A = 0;
    TCCR1B = _BV(CS11); /* 16 MHz / 8; captures falling edges on ICP1 */
    TIMSK1 = _BV(TOIE1);
    TCCR0A = _BV(WGM01); /* up to OCR0A */
    TCCR0B = _BV(CS01) | _BV(CS00); /* 16 MHz / 64 */
    OCR0A = TICK_US / 4 - 1;
    TIMSK0 = _BV(OCIE0A);
}

/* The line: rings with one writer and one reader each. Indices of eight bits wrap
 * by themselves in a ring of 256. One place stays free, to tell full from empty. */

#define SENDING_MAX 255
#define HEARD_SIZE 64 /* 1.3 ms of line: longer than the main loop ever turns */
#define HEARD_MASK (HEARD_SIZE - 1)

static uint8_t sending[SENDING_MAX + 1];
static volatile uint8_t sending_in;  /* written by the main loop */
static volatile uint8_t sending_out; /* written by the interrupt */

static volatile uint8_t heard[HEARD_SIZE];
static volatile uint8_t heard_in;  /* written by the interrupt */
static volatile uint8_t heard_out; /* written by the main loop */

_Static_assert(DEVICE_ROOM_MIN <= SENDING_MAX, "the send buffer is too small");

ISR(USART_UDRE_vect) {
    uint8_t out = sending_out;
    if (out == sending_in) {
        UCSR0B &= (uint8_t)~_BV(UDRIE0);
        return;
    }
    UDR0 = sending[out];
    sending_out = (uint8_t)(out + 1);
}

ISR(USART_RX_vect) {
    uint8_t byte = UDR0;
    uint8_t next = (heard_in + 1) & HEARD_MASK;
    if (next != heard_out) { /* else it is lost, and the CRC will tell */
        heard[heard_in] = byte;
        heard_in = next;
    }
}

static void line_begin(void) {
    UBRR0 = BAUD_DIVISOR;
    UCSR0A = _BV(U2X0);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00); /* 8N1 */
    UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
}

static uint16_t line_room(void *context) {
    (void)context;
    return (uint16_t)(SENDING_MAX - (uint8_t)(sending_in - sending_out));
}

static void line_send(void *context, const uint8_t *bytes, uint8_t size) {
    (void)context;
    uint8_t in = sending_in;
    do {
        sending[in++] = *bytes++;
    } while (--size > 0);
    sending_in = in;
    /* The interrupt may switch itself off meanwhile; then this has the last word. */
    UCSR0B |= _BV(UDRIE0);
}

static int16_t line_receive(void *context) {
    (void)context;
    uint8_t out = heard_out;
    if (out == heard_in) {
        return -1;
    }
    uint8_t byte = heard[out];
    heard_out = (out + 1) & HEARD_MASK;
    return byte;
}

static uint32_t now_us(void *context) {
    (void)context;
    return board_now_us();
}

/* The serial number: up to 16 printable letters from the start of the EEPROM. An
 * empty EEPROM, all FF, gives an empty one. */

static char serial_number[16 + 1];

static void serial_number_begin(void) {
    uint8_t length = 0;
    while (length < sizeof serial_number - 1) {
        uint8_t letter = eeprom_read_byte((const uint8_t *)0 + length);
        if (letter < 0x20 || letter > 0x7E) {
            break;
        }
        serial_number[length++] = (char)letter;
    }
    serial_number[length] = '\0';
}

/* All of it. */

static struct device device;
static struct device_config config;

static void rest_until_interrupt(void) {
    cli();
    if (adc_waits() || heard_in != heard_out) {
        sei();
        return;
    }
    sleep_enable(); /* idle, the mode after a reset: all clocks the board uses go on */
    sei(); /* takes effect after the next instruction: no interrupt gets between */
    sleep_cpu();
    sleep_disable();
}

int main(void) {
    clocks_begin();
    line_begin();
    serial_number_begin();
    config.now_us = now_us;
    config.receive = line_receive;
    config.room = line_room;
    config.send = line_send;
    config.serial_number = serial_number;
    config.age_max_us = AGE_MAX_US;
    adc_describe(&config);
    adc_begin();
    sei();
    device_begin(&device, &config);
    for (;;) {
        device_poll(&device);
        rest_until_interrupt();
    }
}
