/* The device: what a board does, whatever it is made of.
 *
 * Hardware comes in through `struct device_config`: functions and limits. The
 * caller owns all memory, and several devices can live side by side.
 *
 * Rules:
 * - Nothing here waits, allocates, or knows a register.
 * - All of it runs in the main loop. What interrupts bring comes in through
 *   `receive` and `take`, which the board makes safe.
 * - A conversion is counted whether or not it could be read, and whether or not
 *   there was room to send it. Nothing is invented, repeated or filled in.
 * - Room for one reply and one identity is never given to samples. A command is
 *   not even taken from the line before there is room for its answer.
 */
#ifndef DEVICE_H
#define DEVICE_H

#include "wire.h"

/* Version of the firmware: patch for corrections, minor for what can be added to a
 * board, major where a board must be set up anew. */
#define DEVICE_FIRMWARE_MAJOR 1
#define DEVICE_FIRMWARE_MINOR 0
#define DEVICE_FIRMWARE_PATCH 0

#define DEVICE_STREAMS_MAX 2  /* the protocol allows 4; these cost RAM */
#define DEVICE_CHANNELS_MAX 2 /* likewise */
#define DEVICE_BATCH_MAX 8    /* samples in a frame; PROTOCOL.md, section 10 */
#define DEVICE_ROW (1 + 3 * DEVICE_CHANNELS_MAX)
#define DEVICE_SAMPLES_HEAD 11 /* of the payload */
#define DEVICE_RATES_MAX 4
#define DEVICE_GAINS_MAX 4
#define DEVICE_TEXT_MAX 16 /* letters in a name */
/* The longest frames that a device sends. */
#define DEVICE_SAMPLES_RAW_MAX \
    (WIRE_RAW_MIN + DEVICE_SAMPLES_HEAD + DEVICE_BATCH_MAX * DEVICE_ROW)
#define DEVICE_IDENTITY_RAW_MAX                                                   \
    (WIRE_RAW_MIN + 5 + 1 + DEVICE_STREAMS_MAX + 1 + 4 * DEVICE_RATES_MAX + 1 + 1 + \
     DEVICE_GAINS_MAX + 1 + 1 + 2 * (1 + DEVICE_TEXT_MAX))
#define DEVICE_RAW_MAX                                          \
    (DEVICE_SAMPLES_RAW_MAX > DEVICE_IDENTITY_RAW_MAX           \
         ? DEVICE_SAMPLES_RAW_MAX                               \
         : DEVICE_IDENTITY_RAW_MAX)

/* What one ADC gave. */
struct device_conversion {
    uint8_t stream;
    uint8_t lost;     /* conversions before it that could not be read */
    uint32_t time_us; /* when it was ready, on the board's one counter */
    int32_t counts[DEVICE_CHANNELS_MAX]; /* 24 bits, signed */
};

struct device_config {
    void *context; /* handed to each function below */

    /* Microseconds since reset, modulo 2^32; never goes back. */
    uint32_t (*now_us)(void *context);
    /* The next byte from the host, 0 to 255, or -1 where none waits. */
    int16_t (*receive)(void *context);
    /* Bytes that can be sent now. With nothing under way it must be at least
     * DEVICE_ROOM_MIN. */
    uint16_t (*room)(void *context);
    /* Sends bytes, at least one; never more than `room` said. */
    wire_put send;
    /* The next conversion, oldest first in each stream; false where none waits. */
    bool (*take)(void *context, struct device_conversion *conversion);
    /* Puts rate or gain number `index` in force. Returns how many conversions from
     * the next one on are not to be trusted. `set_gain` may be NULL with no gains. */
    uint8_t (*set_rate)(void *context, uint8_t index);
    uint8_t (*set_gain)(void *context, uint8_t index);

    const uint32_t *rates_mhz; /* on offer, in millihertz, each above 0 */
    const uint8_t *gains;      /* on offer */
    const char *adc;           /* name, ASCII 20 to 7E, DEVICE_TEXT_MAX letters */
    const char *serial_number; /* likewise; may be empty */
    uint8_t rates;             /* number of rates, 1 to DEVICE_RATES_MAX */
    uint8_t rate_index;        /* in force at the beginning */
    uint8_t gain_count;        /* number of gains, 0 to DEVICE_GAINS_MAX */
    uint8_t gain_index;        /* in force at the beginning */
    uint8_t streams;           /* 1 to DEVICE_STREAMS_MAX */
    uint8_t channels;          /* in each stream, 1 to DEVICE_CHANNELS_MAX */
    uint8_t adc_bits;          /* 1 to 24 */
    uint8_t settling;          /* conversions not to be trusted after power-up */
    /* No sample waits longer than this before it is sent; at most 20 ms less the
     * longest time between two calls of `device_poll`. */
    uint16_t age_max_us;
};

/* One ADC, or several that convert together. */
struct device_stream {
    uint32_t sequence;      /* number of the next sample */
    uint32_t conversion_us; /* when the last conversion came, or was waited for */
    /* The samples that wait to be sent. */
    uint32_t first_sequence;
    uint32_t first_us;
    uint32_t last_us;
    uint16_t shortest_us; /* spacings among them */
    uint16_t longest_us;
    uint8_t count;
    uint8_t settling; /* conversions still not to be trusted */
    bool silent;
    uint8_t rows[DEVICE_BATCH_MAX * DEVICE_ROW];
};

struct device {
    const struct device_config *config;
    struct wire_reader reader;
    uint32_t counted_us; /* up to where the uptime is counted */
    uint32_t uptime_ms;
    uint32_t status_ms; /* uptime at which the last status was due */
    uint32_t adc_lost;
    uint32_t transmit_drops;
    uint32_t damaged;
    uint32_t patience_us; /* an ADC that gives nothing for so long is silent */
    uint16_t reserved;    /* bytes of room that samples may not take */
    uint8_t rate_index;
    uint8_t gain_index;
    uint8_t batch; /* samples in a frame at this rate */
    bool streaming;
    struct device_stream streams[DEVICE_STREAMS_MAX];
    uint8_t raw[DEVICE_RAW_MAX]; /* the frame that is being made */
};

/* What a send buffer must hold so that nothing can starve: the longest frame of
 * samples, a reply and the longest identity. */
#define DEVICE_ROOM_MIN                                               \
    (WIRE_SENT(DEVICE_SAMPLES_RAW_MAX) + WIRE_SENT(WIRE_RAW_MIN + 3) + \
     WIRE_SENT(DEVICE_IDENTITY_RAW_MAX))

/* Begins after a reset: stopped, says who it is. */
void device_begin(struct device *device, const struct device_config *config);

/* One turn: hear, sample, send. Call it at least every millisecond and after each
 * interrupt. Never waits. */
void device_poll(struct device *device);

#endif
