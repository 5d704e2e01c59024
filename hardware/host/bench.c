/* A board of memory only, so that the core can be driven step by step from a test:
 * its clock, its line and its ADC are arrays that the test fills and empties. */
#include <stdlib.h>
#include <string.h>

#include "device.h"

#define QUEUE 4096

struct bench {
    struct device device;
    struct device_config config;
    uint32_t now_us;
    uint16_t room;      /* that the line has left */
    uint16_t overdrawn; /* bytes sent beyond it: a fault of the core */
    uint32_t rates_mhz[4];
    uint8_t gains[4];
    int16_t rate_set; /* last asked for; -1 before */
    int16_t gain_set;
    uint8_t heard[QUEUE];
    size_t heard_size;
    size_t heard_at;
    uint8_t sent[QUEUE];
    size_t sent_size;
    struct device_conversion waiting[QUEUE];
    size_t waiting_size;
    size_t waiting_at;
};

struct bench *bench_new(uint8_t streams, uint8_t channels, const uint32_t *rates_mhz,
                        uint8_t rates, uint8_t rate_index, uint8_t settling);
void bench_free(struct bench *bench);
void bench_begin(struct bench *bench);
void bench_hear(struct bench *bench, const uint8_t *bytes, size_t size);
void bench_convert(struct bench *bench, uint8_t stream, uint32_t time_us,
                   const int32_t *counts, uint8_t lost);
size_t bench_poll(struct bench *bench, uint32_t now_us, uint16_t room, uint8_t *sent,
                  size_t capacity);
int bench_rate_set(const struct bench *bench);
int bench_gain_set(const struct bench *bench);
int bench_overdrawn(const struct bench *bench);
int bench_unheard(const struct bench *bench);
int bench_room_min(void);

static uint32_t now_us(void *context) {
    return ((struct bench *)context)->now_us;
}

static int16_t receive(void *context) {
    struct bench *bench = context;
    if (bench->heard_at == bench->heard_size) {
        bench->heard_at = bench->heard_size = 0;
        return -1;
    }
    return bench->heard[bench->heard_at++];
}

static uint16_t room(void *context) {
    return ((struct bench *)context)->room;
}

static void send(void *context, const uint8_t *bytes, uint8_t size) {
    struct bench *bench = context;
    if (bench->room < size || bench->sent_size + size > QUEUE) {
        bench->overdrawn++;
        return;
    }
    bench->room = (uint16_t)(bench->room - size);
    memcpy(bench->sent + bench->sent_size, bytes, size);
    bench->sent_size += size;
}

static bool take(void *context, struct device_conversion *conversion) {
    struct bench *bench = context;
    if (bench->waiting_at == bench->waiting_size) {
        bench->waiting_at = bench->waiting_size = 0;
        return false;
    }
    *conversion = bench->waiting[bench->waiting_at++];
    return true;
}

static uint8_t set_rate(void *context, uint8_t index) {
    ((struct bench *)context)->rate_set = index;
    return 4;
}

static uint8_t set_gain(void *context, uint8_t index) {
    ((struct bench *)context)->gain_set = index;
    return 5;
}

struct bench *bench_new(uint8_t streams, uint8_t channels, const uint32_t *rates_mhz,
                        uint8_t rates, uint8_t rate_index, uint8_t settling) {
    struct bench *bench = calloc(1, sizeof *bench);
    if (bench == NULL) {
        return NULL;
    }
    memcpy(bench->rates_mhz, rates_mhz, rates * sizeof *rates_mhz);
    bench->gains[0] = 128;
    bench->gains[1] = 64;
    bench->rate_set = bench->gain_set = -1;
    bench->room = QUEUE;
    bench->config = (struct device_config){
        .context = bench,
        .now_us = now_us,
        .receive = receive,
        .room = room,
        .send = send,
        .take = take,
        .set_rate = set_rate,
        .set_gain = set_gain,
        .rates_mhz = bench->rates_mhz,
        .gains = bench->gains,
        .adc = "bench",
        .serial_number = "B 7",
        .rates = rates,
        .rate_index = rate_index,
        .gain_count = 2,
        .gain_index = 0,
        .streams = streams,
        .channels = channels,
        .adc_bits = 24,
        .settling = settling,
        .age_max_us = 18000,
    };
    return bench;
}

void bench_free(struct bench *bench) {
    free(bench);
}

void bench_begin(struct bench *bench) {
    device_begin(&bench->device, &bench->config);
}

void bench_hear(struct bench *bench, const uint8_t *bytes, size_t size) {
    for (size_t i = 0; i < size && bench->heard_size < QUEUE; i++) {
        bench->heard[bench->heard_size++] = bytes[i];
    }
}

void bench_convert(struct bench *bench, uint8_t stream, uint32_t time_us,
                   const int32_t *counts, uint8_t lost) {
    if (bench->waiting_size == QUEUE) {
        return;
    }
    struct device_conversion *conversion = &bench->waiting[bench->waiting_size++];
    conversion->stream = stream;
    conversion->lost = lost;
    conversion->time_us = time_us;
    for (uint8_t i = 0; i < bench->config.channels; i++) {
        conversion->counts[i] = counts[i];
    }
}

/* One turn at `now_us` with so much room on the line. Returns how many bytes were
 * sent, since the last turn, and copies them. */
size_t bench_poll(struct bench *bench, uint32_t now, uint16_t room_left, uint8_t *sent,
                  size_t capacity) {
    bench->now_us = now;
    bench->room = room_left;
    device_poll(&bench->device);
    size_t size = bench->sent_size < capacity ? bench->sent_size : capacity;
    memcpy(sent, bench->sent, size);
    bench->sent_size = 0;
    return size;
}

int bench_rate_set(const struct bench *bench) {
    return bench->rate_set;
}

int bench_gain_set(const struct bench *bench) {
    return bench->gain_set;
}

int bench_overdrawn(const struct bench *bench) {
    return bench->overdrawn;
}

int bench_unheard(const struct bench *bench) {
    return (int)(bench->heard_size - bench->heard_at);
}

int bench_room_min(void) {
    return DEVICE_ROOM_MIN;
}
