/* Lines of the protocol, from and to characters. */
#ifndef LINE_H
#define LINE_H

#include <stdint.h>

#include "protocol.h"

/* Number, command or status, data, CRC. */
enum { LINE_BYTES = 2 + BOARD_DATA_MOST + 2 };

enum line_event { LINE_NOTHING, LINE_REQUEST, LINE_BROKEN };

struct line {
  uint8_t bytes[LINE_BYTES];
  uint8_t count; /* without the CRC */
  uint16_t crc;
};

/* Takes one character; LINE_REQUEST when it ends a good line, which then stands in `request`. */
enum line_event line_take(struct line* request, char character);
/* Sends bytes behind a start sign, with their CRC and a line feed. */
void line_send(char start, const uint8_t* bytes, uint8_t count);

#endif
