#include "device.h"

#define COUNTS_MAX 0x7FFFFFL
#define COUNTS_MIN (-0x800000L)
#define SETTLING 0x10

#define BATCH_SPAN_US 20000UL  /* PROTOCOL.md, section 7: the age of a sample */
#define BATCH_WAIT_US 3000UL   /* so long at most a frame is filled, by choice */
#define SILENT_US 500000UL     /* section 4.3 */
#define SILENT_PERIODS 4       /* section 4.3 */
#define SPACING_MIN_US 2       /* section 3: how even spacing must be, */
#define SPACING_PARTS 50       /* or 2 % of it, whichever is more */
#define STATUS_MS 1000
#define TAKEN_MAX 8 /* conversions in one turn */

_Static_assert(DEVICE_RAW_MAX <= WIRE_RAW_MAX, "a frame must be one COBS block");

enum result { DONE = 0, UNKNOWN_COMMAND = 1, BAD_VALUE = 2 };

#define REPLY_RAW (WIRE_RAW_MIN + 3)
#define STATUS_RAW(streams) (WIRE_RAW_MIN + 19 + 4 * (streams))

/* Sending. */

static void begin(struct device *device, struct wire_frame *frame, uint8_t type,
                  uint32_t sequence) {
    wire_begin(frame, device->raw, sizeof device->raw, type, sequence);
}

static uint8_t end(struct device *device, struct wire_frame *frame) {
    const struct device_config *config = device->config;
    uint8_t size = wire_end(frame);
    wire_send(device->raw, size, config->send, config->context);
    return size;
}

static uint16_t room(const struct device *device) {
    return device->config->room(device->config->context);
}

static void send_reply(struct device *device, uint8_t token, uint8_t command,
                       enum result result) {
    struct wire_frame frame;
    begin(device, &frame, WIRE_REPLY, device->streams[0].sequence);
    wire_u8(&frame, token);
    wire_u8(&frame, command);
    wire_u8(&frame, (uint8_t)result);
    (void)end(device, &frame);
}

/* Returns the raw size, which is always the same for one board. */
static uint8_t send_identity(struct device *device) {
    const struct device_config *config = device->config;
    struct wire_frame frame;
    begin(device, &frame, WIRE_IDENTITY, device->streams[0].sequence);
    wire_u8(&frame, WIRE_MAJOR);
    wire_u8(&frame, WIRE_MINOR);
    wire_u8(&frame, DEVICE_FIRMWARE_MAJOR);
    wire_u8(&frame, DEVICE_FIRMWARE_MINOR);
    wire_u8(&frame, DEVICE_FIRMWARE_PATCH);
    wire_u8(&frame, config->streams);
    for (uint8_t i = 0; i < config->streams; i++) {
        wire_u8(&frame, config->channels);
    }
    wire_u8(&frame, config->rates);
    for (uint8_t i = 0; i < config->rates; i++) {
        wire_u32(&frame, config->rates_mhz[i]);
    }
    wire_u8(&frame, device->rate_index);
    wire_u8(&frame, config->gain_count);
    wire_bytes(&frame, config->gains, config->gain_count);
    wire_u8(&frame, device->gain_index);
    wire_u8(&frame, config->adc_bits);
    wire_text(&frame, config->adc);
    wire_text(&frame, config->serial_number);
    return end(device, &frame);
}

static void send_status(struct device *device) {
    const struct device_config *config = device->config;
    struct wire_frame frame;
    uint8_t silent = 0;
    for (uint8_t i = 0; i < config->streams; i++) {
        if (device->streams[i].silent) {
            silent = (uint8_t)(silent | 1U << i);
        }
    }
    begin(device, &frame, WIRE_STATUS, device->streams[0].sequence);
    wire_u32(&frame, device->uptime_ms);
    wire_u32(&frame, device->adc_lost);
    wire_u32(&frame, device->transmit_drops);
    wire_u32(&frame, device->damaged);
    wire_u8(&frame, device->streaming ? 1 : 0);
    wire_u8(&frame, silent);
    wire_u8(&frame, config->streams);
    for (uint8_t i = 0; i < config->streams; i++) {
        wire_u32(&frame, device->streams[i].sequence);
    }
    (void)end(device, &frame);
}

/* Sends the samples of a stream that wait, or drops and counts them where the line
 * is full. A late sample is worth less than the one after it. */
static void flush(struct device *device, uint8_t number) {
    struct device_stream *stream = &device->streams[number];
    uint8_t row = (uint8_t)(1 + 3 * device->config->channels);
    uint8_t count = stream->count;
    if (count == 0) {
        return;
    }
    stream->count = 0;
    uint16_t raw = (uint16_t)(WIRE_HEAD + DEVICE_SAMPLES_HEAD + count * row + WIRE_CRC);
    if (room(device) < WIRE_SENT(raw) + device->reserved) {
        device->transmit_drops += count;
        return;
    }
    uint32_t step_us = 0;
    if (count > 1) {
        uint8_t steps = (uint8_t)(count - 1);
        step_us = (stream->last_us - stream->first_us + steps / 2U) / steps;
    }
    struct wire_frame frame;
    begin(device, &frame, WIRE_SAMPLES, stream->first_sequence);
    wire_u8(&frame, number);
    wire_u8(&frame, device->config->channels);
    wire_u8(&frame, count);
    wire_u32(&frame, stream->first_us);
    wire_u32(&frame, step_us);
    wire_bytes(&frame, stream->rows, (uint8_t)(count * row));
    (void)end(device, &frame);
}

static void flush_all(struct device *device) {
    for (uint8_t i = 0; i < device->config->streams; i++) {
        flush(device, i);
    }
}

/* Sampling. */

/* Whether a sample at `time_us` is spaced as those that wait: each spacing within
 * 2 % or 2 us of their mean, which is what will be sent as the step. All numbers
 * stay small, since no sample waits longer than 20 ms. */
static bool is_even(struct device_stream *stream, uint32_t time_us) {
    uint32_t spacing_us = time_us - stream->last_us;
    uint32_t span_us = time_us - stream->first_us;
    if (span_us == 0 || span_us > BATCH_SPAN_US) {
        return false;
    }
    uint16_t shortest_us = (uint16_t)spacing_us;
    uint16_t longest_us = (uint16_t)spacing_us;
    if (stream->count > 1) {
        if (stream->shortest_us < shortest_us) {
            shortest_us = stream->shortest_us;
        }
        if (stream->longest_us > longest_us) {
            longest_us = stream->longest_us;
        }
    }
    /* Times the number of spacings and the parts, to compare without dividing. */
    uint8_t steps = stream->count;
    uint32_t allowed = span_us;
    if (allowed < (uint32_t)(SPACING_MIN_US * SPACING_PARTS) * steps) {
        allowed = (uint32_t)(SPACING_MIN_US * SPACING_PARTS) * steps;
    }
    uint32_t above = (uint32_t)longest_us * steps - span_us;
    uint32_t below = span_us - (uint32_t)shortest_us * steps;
    if (above * SPACING_PARTS > allowed || below * SPACING_PARTS > allowed) {
        return false;
    }
    stream->shortest_us = shortest_us;
    stream->longest_us = longest_us;
    return true;
}

static void append(struct device *device, struct device_stream *stream,
                   const struct device_conversion *conversion, bool settling) {
    uint8_t channels = device->config->channels;
    uint8_t *row = &stream->rows[stream->count * (uint8_t)(1 + 3 * channels)];
    uint8_t quality = settling ? SETTLING : 0;
    for (uint8_t i = 0; i < channels; i++) {
        int32_t counts = conversion->counts[i];
        if (counts >= COUNTS_MAX || counts <= COUNTS_MIN) {
            quality = (uint8_t)(quality | 1U << i);
        }
        row[1 + 3 * i] = (uint8_t)counts;
        row[2 + 3 * i] = (uint8_t)((uint32_t)counts >> 8);
        row[3 + 3 * i] = (uint8_t)((uint32_t)counts >> 16);
    }
    row[0] = quality;
    if (stream->count == 0) {
        stream->first_sequence = stream->sequence;
        stream->first_us = conversion->time_us;
    }
    stream->last_us = conversion->time_us;
    stream->sequence++;
    stream->count++;
}

static void sample(struct device *device, const struct device_conversion *conversion) {
    struct device_stream *stream = &device->streams[conversion->stream];
    if (stream->silent) {
        /* Most likely the chip had no power, and has to settle again. */
        stream->silent = false;
        stream->settling = device->config->settling;
    }
    stream->conversion_us = conversion->time_us;
    device->adc_lost += conversion->lost;
    bool settling = stream->settling > 0;
    if (settling) {
        stream->settling--;
    }
    if (!device->streaming) {
        return;
    }
    if (stream->count > 0 &&
        (conversion->lost > 0 || !is_even(stream, conversion->time_us))) {
        flush(device, conversion->stream);
    }
    stream->sequence += conversion->lost;
    append(device, stream, conversion, settling);
    if (stream->count >= device->batch) {
        flush(device, conversion->stream);
    }
}

/* All that waits, but no more than could wait at once: an ADC that is too fast for
 * the board must not keep it from hearing that it shall stop. */
static void take_all(struct device *device) {
    struct device_conversion conversion;
    uint8_t left = TAKEN_MAX;
    while (left > 0 && device->config->take(device->config->context, &conversion)) {
        sample(device, &conversion);
        left--;
    }
}

/* Flags conversions of all streams as not to be trusted, and waits anew. What is
 * left to wait for from an earlier change is never made shorter by a later one. */
static void unsettle(struct device *device, uint8_t conversions, uint32_t now_us) {
    for (uint8_t i = 0; i < device->config->streams; i++) {
        if (conversions > device->streams[i].settling) {
            device->streams[i].settling = conversions;
        }
        device->streams[i].conversion_us = now_us;
    }
}

/* What follows from the rate: how many samples make a frame, so that none waits for
 * long, and how long an ADC may be quiet. */
static void use_rate(struct device *device, uint8_t index) {
    uint32_t period_us = 1000000000UL / device->config->rates_mhz[index];
    uint32_t batch = BATCH_WAIT_US / period_us;
    if (batch > DEVICE_BATCH_MAX) {
        batch = DEVICE_BATCH_MAX;
    }
    device->batch = batch > 1 ? (uint8_t)batch : 1;
    device->rate_index = index;
    device->patience_us = SILENT_PERIODS * period_us;
    if (device->patience_us < SILENT_US) {
        device->patience_us = SILENT_US;
    }
}

/* Hearing. */

static uint32_t value_of(const struct wire_reader *reader) {
    const uint8_t *bytes = &reader->kept[WIRE_HEAD + 1];
    return (uint32_t)bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16 |
           (uint32_t)bytes[3] << 24;
}

static enum result change_rate(struct device *device, uint32_t rate_mhz) {
    const struct device_config *config = device->config;
    for (uint8_t i = 0; i < config->rates; i++) {
        if (config->rates_mhz[i] != rate_mhz) {
            continue;
        }
        if (i != device->rate_index) {
            take_all(device); /* what was converted before belongs to the old rate */
            flush_all(device);
            uint8_t conversions = config->set_rate(config->context, i);
            use_rate(device, i);
            unsettle(device, conversions, config->now_us(config->context));
        }
        return DONE;
    }
    return BAD_VALUE;
}

static enum result change_gain(struct device *device, uint8_t gain) {
    const struct device_config *config = device->config;
    for (uint8_t i = 0; i < config->gain_count; i++) {
        if (config->gains[i] != gain) {
            continue;
        }
        if (i != device->gain_index) {
            take_all(device);
            flush_all(device);
            uint8_t conversions = config->set_gain(config->context, i);
            device->gain_index = i;
            unsettle(device, conversions, config->now_us(config->context));
        }
        return DONE;
    }
    return BAD_VALUE;
}

static enum result set_streaming(struct device *device, bool streaming) {
    if (streaming != device->streaming) {
        take_all(device); /* these were ready before the command */
        flush_all(device);
        device->streaming = streaming;
    }
    return DONE;
}

/* Does what a sound frame asks, and answers. */
static void obey(struct device *device) {
    const struct wire_reader *reader = &device->reader;
    uint8_t command = reader->kept[0];
    uint8_t token = reader->kept[WIRE_HEAD];
    uint8_t payload = (uint8_t)(reader->size - WIRE_HEAD - WIRE_CRC);
    uint8_t least = command == WIRE_RATE ? 5 : command == WIRE_GAIN ? 2 : 1;
    enum result result = DONE;
    if (command < WIRE_HOST_FIRST || command > WIRE_HOST_LAST) {
        return; /* no host's frame: an echo, or another board's */
    }
    if (payload < least) {
        device->damaged++;
        return;
    }
    switch (command) {
    case WIRE_IDENTIFY:
        break;
    case WIRE_START:
        result = set_streaming(device, true);
        break;
    case WIRE_STOP:
        result = set_streaming(device, false);
        break;
    case WIRE_RATE:
        result = change_rate(device, value_of(reader));
        break;
    case WIRE_GAIN:
        result = change_gain(device, reader->kept[WIRE_HEAD + 1]);
        break;
    default:
        result = UNKNOWN_COMMAND;
        break;
    }
    send_reply(device, token, command, result);
    bool introduces =
        command == WIRE_IDENTIFY || command == WIRE_RATE || command == WIRE_GAIN;
    if (result == DONE && introduces) {
        (void)send_identity(device);
    }
}

/* Takes commands while there is room to answer them; the rest waits in the board's
 * receive buffer. */
static void hear(struct device *device) {
    const struct device_config *config = device->config;
    while (room(device) >= device->reserved) {
        int16_t byte = config->receive(config->context);
        if (byte < 0) {
            return;
        }
        switch (wire_read(&device->reader, (uint8_t)byte)) {
        case WIRE_FRAME:
            obey(device);
            break;
        case WIRE_DAMAGE:
            device->damaged++;
            break;
        case WIRE_NOTHING:
            break;
        }
    }
}

/* Time. */

static void look_at_streams(struct device *device, uint32_t now_us) {
    for (uint8_t i = 0; i < device->config->streams; i++) {
        struct device_stream *stream = &device->streams[i];
        /* Conversions may carry a time just after `now_us` was read. */
        int32_t waited_us = (int32_t)(now_us - stream->conversion_us);
        if (!stream->silent && waited_us > (int32_t)device->patience_us) {
            stream->silent = true;
        }
        int32_t age_us = (int32_t)(now_us - stream->first_us);
        if (stream->count > 0 && age_us >= (int32_t)device->config->age_max_us) {
            flush(device, i);
        }
    }
}

static void count_uptime(struct device *device, uint32_t now_us) {
    do {
        device->counted_us += 1000;
        device->uptime_ms++;
    } while (now_us - device->counted_us >= 1000);
    unsigned streams = device->config->streams;
    uint16_t needed = (uint16_t)(WIRE_SENT(STATUS_RAW(streams)) + device->reserved);
    if (device->uptime_ms - device->status_ms >= STATUS_MS && room(device) >= needed) {
        device->status_ms += STATUS_MS;
        send_status(device);
    }
}

void device_begin(struct device *device, const struct device_config *config) {
    *device = (struct device){.config = config};
    device->gain_index = config->gain_index;
    device->counted_us = config->now_us(config->context);
    use_rate(device, config->rate_index);
    unsettle(device, config->settling, device->counted_us);
    static const uint8_t delimiter = 0; /* ends what a boot loader may have printed */
    config->send(config->context, &delimiter, 1);
    device->reserved =
        (uint16_t)(WIRE_SENT(send_identity(device)) + WIRE_SENT(REPLY_RAW));
}

void device_poll(struct device *device) {
    const struct device_config *config = device->config;
    take_all(device);
    hear(device);
    uint32_t now_us = config->now_us(config->context);
    if (now_us - device->counted_us >= 1000) { /* the rest is in no hurry */
        count_uptime(device, now_us);
        look_at_streams(device, now_us);
    }
}
