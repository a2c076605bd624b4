#include "line.h"

#include <util/crc16.h>

#include "serial.h"

#define NO_DIGIT 0xFF

static uint8_t digits;         /* taken of this line */
static uint8_t begun, broken;  /* a start sign was there; something was wrong behind it */

/* CRC-16/IBM-3740: polynomial 1021h, from FFFFh, high bit first. */
static uint16_t crc_over(char start, const uint8_t *bytes, uint8_t count) {
  uint16_t crc = _crc_xmodem_update(0xFFFF, (uint8_t)start);
  for (uint8_t i = 0; i < count; ++i) crc = _crc_xmodem_update(crc, bytes[i]);
  return crc;
}

static uint8_t digit_of(char character) {
  if (character >= '0' && character <= '9') return character - '0';
  if (character >= 'A' && character <= 'F') return character - 'A' + 10;
  return NO_DIGIT;
}

static uint8_t is_whole(struct line *request) {
  if (broken || digits % 2 != 0 || digits < 8) return 0;
  request->count = digits / 2 - 2;
  const uint8_t *crc = request->bytes + request->count;
  request->crc = (uint16_t)(crc[0] << 8) | crc[1];
  return crc_over(BOARD_REQUEST, request->bytes, request->count) == request->crc;
}

static void take_digit(struct line *request, char character) {
  const uint8_t digit = digit_of(character);
  if (digit == NO_DIGIT || digits == 2 * LINE_BYTES) {
    broken = 1;
    return;
  }
  uint8_t *byte = request->bytes + digits / 2;
  *byte = (uint8_t)(*byte << 4) | digit;
  ++digits;
}

enum line_event line_take(struct line *request, char character) {
  if (character == BOARD_REQUEST) { /* begins anew, whatever was before */
    begun = 1;
    broken = digits = 0;
  } else if (character == '\n') {
    const uint8_t was_begun = begun;
    begun = 0;
    if (was_begun) return is_whole(request) ? LINE_REQUEST : LINE_BROKEN;
  } else if (begun) {
    take_digit(request, character);
  }
  return LINE_NOTHING;
}

static void send_byte(uint8_t byte) {
  static const char digit[] = "0123456789ABCDEF";
  serial_put(digit[byte >> 4]);
  serial_put(digit[byte & 15]);
}

void line_send(char start, const uint8_t *bytes, uint8_t count) {
  const uint16_t crc = crc_over(start, bytes, count);
  serial_put(start);
  for (uint8_t i = 0; i < count; ++i) send_byte(bytes[i]);
  send_byte(crc >> 8);
  send_byte(crc & 0xFF);
  serial_put('\n');
}
