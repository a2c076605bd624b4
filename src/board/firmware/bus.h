/* The chip's bus, a phase at a time. Every phase lasts 8 clocks (500 ns) or more, which satisfies
   the slower sheet in each row of its timing table. Always inlined and with explicit waits: where a
   compiler may move code, it moves the moment of sampling. */
#ifndef BUS_H
#define BUS_H

#include <avr/io.h>
#include <stdint.h>

#include "pins.h"

#define INLINE static inline __attribute__((always_inline))

INLINE void bus_phase(void) {
  __builtin_avr_delay_cycles(8);
}

INLINE uint8_t bus_sample(void) {
  return (PIND & BUS_ON_D) | (PINB & BUS_ON_B);
}

INLINE void bus_drive(uint8_t value) {
  PORTD = (PORTD & ~BUS_ON_D) | (value & BUS_ON_D);
  PORTB = (PORTB & ~BUS_ON_B) | (value & BUS_ON_B);
  DDRD |= BUS_ON_D;
  DDRB |= BUS_ON_B;
}

/* Direction first: the other way round a line that was high would be driven low for a moment. */
INLINE void bus_release(void) {
  DDRD &= ~BUS_ON_D;
  DDRB &= ~BUS_ON_B;
  PORTD &= ~BUS_ON_D;
  PORTB &= ~BUS_ON_B;
}

INLINE void bus_latch(uint8_t address) {
  bus_drive(address);
  bus_phase();
  PORTB |= _BV(PIN_AS);
  bus_phase();
  PORTB &= ~_BV(PIN_AS);
  bus_phase();
}

/* The lines keep `charge` where nobody drives them. */
INLINE uint8_t bus_read(uint8_t charge) {
  bus_drive(charge);
  bus_phase();
  bus_release();
  bus_phase();
  PORTC &= ~_BV(PIN_CS);
  bus_phase();
  PORTB &= ~_BV(PIN_RD);
  bus_phase();
  const uint8_t value = bus_sample();
  PORTB |= _BV(PIN_RD);
  bus_phase();
  PORTC |= _BV(PIN_CS);
  bus_phase();
  return value;
}

INLINE void bus_write(uint8_t value) {
  bus_drive(value);
  bus_phase();
  PORTC &= ~_BV(PIN_CS);
  bus_phase();
  PORTB &= ~_BV(PIN_WR);
  bus_phase();
  PORTB |= _BV(PIN_WR);
  bus_phase();
  PORTC |= _BV(PIN_CS);
  bus_phase();
  bus_release();
}

/* The strobes high, AS low, data released: the chip's supply must be up. Level first, so that no
   line is driven low on its way. */
INLINE void bus_begin(void) {
  PORTC |= _BV(PIN_CS);
  PORTB |= _BV(PIN_RD) | _BV(PIN_WR);
  DDRC |= _BV(PIN_CS);
  DDRB |= _BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS);
}

/* Every line let go, nothing pulled up: a chip without supply would be fed through its pins. */
INLINE void bus_end(void) {
  bus_release();
  DDRC &= ~_BV(PIN_CS);
  DDRB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS));
  PORTC &= ~_BV(PIN_CS);
  PORTB &= ~(_BV(PIN_RD) | _BV(PIN_WR) | _BV(PIN_AS));
}

#endif
