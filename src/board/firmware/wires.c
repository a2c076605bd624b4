#include "wires.h"

#include <util/delay.h>

#include "bus.h"
#include "protocol.h"

#define CONTROLS 0x0E00 /* RD, CS, WR */

/* Weakly pulled up, a long wire needs a while. */
static void settle(void) {
  _delay_us(20);
}

static uint16_t sample(void) {
  uint16_t lines = bus_sample();
  if (PINB & _BV(PIN_RD)) lines |= 1u << BOARD_LINE_RD;
  if (PINC & _BV(PIN_CS)) lines |= 1u << BOARD_LINE_CS;
  if (PINB & _BV(PIN_WR)) lines |= 1u << BOARD_LINE_WR;
  return lines;
}

static void all_weakly_up(void) {
  DDRD &= ~BUS_ON_D;
  DDRB &= ~(BUS_ON_B | _BV(PIN_RD) | _BV(PIN_WR));
  DDRC &= ~_BV(PIN_CS);
  PORTD |= BUS_ON_D;
  PORTB |= BUS_ON_B | _BV(PIN_RD) | _BV(PIN_WR);
  PORTC |= _BV(PIN_CS);
}

/* Pulls one line low, and says which others, of those in `among`, are low with it. */
static uint16_t follow(uint8_t line, uint16_t among) {
  if (line < 2) {
    PORTB &= ~_BV(line);
    DDRB |= _BV(line);
  } else if (line < 8) {
    PORTD &= ~_BV(line);
    DDRD |= _BV(line);
  } else if (line == BOARD_LINE_CS) {
    PORTC &= ~_BV(PIN_CS);
    DDRC |= _BV(PIN_CS);
  } else {
    const uint8_t pin = line == BOARD_LINE_RD ? _BV(PIN_RD) : _BV(PIN_WR);
    PORTB &= ~pin;
    DDRB |= pin;
  }
  settle();
  const uint16_t low = ~sample() & among & ~(1u << line);
  all_weakly_up();
  settle();
  return low;
}

static uint8_t tell(uint8_t found[3], uint8_t line, uint16_t mask) {
  found[0] = line;
  found[1] = mask >> 8;
  found[2] = mask & 0xFF;
  return BOARD_TOUCHING;
}

static uint8_t held_high(void) {
  bus_drive(0x00);
  settle();
  bus_release();
  bus_phase();
  return bus_sample();
}

static uint8_t test(uint8_t found[3]) {
  all_weakly_up();
  settle();
  const uint16_t all = CONTROLS | 0xFF;
  const uint16_t low = ~sample() & all;
  if (low) return tell(found, BOARD_LINE_AS, low);
  for (uint8_t line = 0; line < 8; ++line) {
    const uint16_t following = follow(line, all);
    if (following) return tell(found, line, following);
  }
  bus_begin();
  const uint8_t high = held_high();
  if (high) return tell(found, BOARD_LINE_PLUS, high);
  /* Should WR and CS touch, the next steps write: to 0Dh, which cannot be written. */
  bus_latch(0x0D);
  all_weakly_up();
  for (uint8_t line = BOARD_LINE_RD; line <= BOARD_LINE_WR; ++line) {
    const uint16_t following = follow(line, CONTROLS);
    if (following) return tell(found, line, following);
  }
  return BOARD_DONE;
}

uint8_t wires_test(uint8_t found[3]) {
  const uint8_t result = test(found);
  bus_begin();
  bus_release();
  return result;
}
