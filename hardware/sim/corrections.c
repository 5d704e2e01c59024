/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "corrections.h"

#include <stdlib.h>
#include <string.h>

#include "sim_io.h"

/* Data addresses of the ATmega328P. */
#define UBRR0L 0xC4
#define UBRR0H 0xC5
#define UCSR0A 0xC0
#define U2X0 1
#define SPCR 0x4C
#define SPSR 0x4D
#define SPDR 0x4E

#define LINE_BITS 10 /* 8N1 */

static avr_io_t *find(avr_t *avr, const char *kind) {
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (io->kind != NULL && strcmp(io->kind, kind) == 0) {
            return io;
        }
    }
    abort(); /* this processor has both */
}

avr_uart_t *find_uart(avr_t *avr) {
    return (avr_uart_t *)find(avr, "uart");
}

/* By walking the modules: asking for it by name finds nothing on this core. */
avr_spi_t *find_spi(avr_t *avr) {
    return (avr_spi_t *)find(avr, "spi");
}

unsigned uart_byte_cycles(avr_t *avr) {
    unsigned divisor = (unsigned)avr->data[UBRR0L] | (unsigned)avr->data[UBRR0H] << 8;
    unsigned per_bit = avr->data[UCSR0A] & (1 << U2X0) ? 8 : 16;
    return LINE_BITS * per_bit * (divisor + 1);
}

/* simavr counts a parity bit that 8N1 does not have. */
static void speed_changed(struct avr_irq_t *irq, uint32_t value, void *param) {
    (void)irq;
    (void)value;
    avr_t *avr = param;
    find_uart(avr)->cycles_per_byte = uart_byte_cycles(avr);
}

void correct_uart(avr_t *avr) {
    uint32_t flags = 0; /* do not sleep when the firmware polls, do not print */
    avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    static const uint16_t registers[] = {UBRR0L, UCSR0A};
    for (size_t i = 0; i < 2; i++) {
        avr_irq_register_notify(
            avr_iomem_getirq(avr, registers[i], NULL, AVR_IOMEM_IRQ_ALL),
            speed_changed, avr);
    }
}

/* simavr lets each byte take 100 us, whatever the clock divisor. */
static void byte_sent(struct avr_irq_t *irq, uint32_t value, void *param) {
    static const unsigned divisors[] = {4, 16, 64, 128};
    (void)irq;
    (void)value;
    avr_t *avr = param;
    avr_spi_t *spi = find_spi(avr);
    unsigned divisor = divisors[avr->data[SPCR] & 3];
    if (avr->data[SPSR] & 1) {
        divisor /= 2;
    }
    for (avr_cycle_timer_slot_p slot = avr->cycle_timers.timer; slot != NULL;
         slot = slot->next) {
        if (slot->param == spi) {
            avr_cycle_timer_t timer = slot->timer;
            avr_cycle_timer_cancel(avr, timer, spi);
            avr_cycle_timer_register(avr, 8 * divisor, timer, spi);
            return;
        }
    }
}

void correct_spi(avr_t *avr) {
    avr_irq_register_notify(avr_iomem_getirq(avr, SPDR, NULL, AVR_IOMEM_IRQ_ALL),
                            byte_sent, avr);
}
