/* What the board and the program say to each other, in numbers; docs/board-protocol.md has the
   words. Read by the firmware (C) and by the program (C++). */
#ifndef BOARD_PROTOCOL_H
#define BOARD_PROTOCOL_H

enum {
  BOARD_VERSION = 1,    /* of the protocol */
  BOARD_DATA_MOST = 32, /* data bytes in a line */
  BOARD_BAUD = 38400    /* 0.16 % off at 16 MHz; 115,200 would be 2.1 % off */
};

/* The first character of a line says who speaks; every line ends with a line feed. Between them
   stand pairs of the digits 0-9 and A-F, the last two pairs being the CRC-16/IBM-3740 of the start
   sign and all bytes before it. */
enum {
  BOARD_REQUEST = '>', /* number, command, data */
  BOARD_REPLY = '<',   /* number of the request, status, data */
  BOARD_GREETING = '!' /* what BOARD_HELLO answers, once after each reset */
};

enum {
  BOARD_HELLO = 'H', /* -> version, state, status, rail mV (2), chip mV (2), seconds to rest (2) */
  BOARD_ON = 'P',    /* supply on, checked */
  BOARD_OFF = 'O',   /* supply off, checked; ends a rest too */
  BOARD_REST = 'F',  /* seconds (2): off for so long, then on again without being asked */
  BOARD_WIRES = 'X', /* wire test; the chip must be on */
  BOARD_READ = 'R',  /* address, count -> bytes */
  BOARD_WRITE = 'W', /* address, bytes: RAM only, each read back */
  BOARD_CLOCK = 'T', /* -> bytes 00h to 0Dh, none of them from the middle of an update */
  BOARD_SET = 'S',   /* 0Ah, 0Bh; or bytes 00h to 0Bh: time written under SET */
  BOARD_EDGE = 'E'   /* waits for the end of an update -> the seconds byte */
};

enum {
  BOARD_DONE = 0,
  BOARD_BAD_FRAME = 1,      /* no line of this protocol; its number is 0 */
  BOARD_BAD_COMMAND = 2,    /* no such command */
  BOARD_BAD_RANGE = 3,      /* addresses or lengths that it does not take */
  BOARD_NO_POWER = 4,       /* the chip is off */
  BOARD_FLOATING = 5,       /* address, bits that nobody drives */
  BOARD_TOUCHING = 6,       /* line, lines that follow it (2); see below */
  BOARD_NO_CHIP = 7,        /* address: none of the eight lines is driven */
  BOARD_LOW_RAIL = 8,       /* mV (2): the board's own supply is too low */
  BOARD_SUPPLY_SHORT = 9,   /* mV (2): the chip's supply does not rise, or has fallen */
  BOARD_FED_ELSEWHERE = 10, /* mV (2): the chip's supply does not fall */
  BOARD_UPDATE_STUCK = 11,  /* UIP stays at 1 */
  BOARD_BUSY = 12,          /* seconds (2): the chip rests without supply */
  BOARD_NOT_TAKEN = 13,     /* address, written, found */
  BOARD_NO_EDGE = 14        /* no update for two seconds: the oscillator stands */
};

enum { BOARD_STATE_OFF = 0, BOARD_STATE_ON = 1, BOARD_STATE_RESTING = 2 };

/* Lines in BOARD_TOUCHING: bits 0 to 7 of the mask are AD0 to AD7. */
enum {
  BOARD_LINE_AS = 8, /* also ground: AS is held low while the others are looked at */
  BOARD_LINE_RD = 9,
  BOARD_LINE_CS = 10,
  BOARD_LINE_WR = 11,
  BOARD_LINE_PLUS = 255 /* a line that does not stay low when it is let go */
};

#endif
