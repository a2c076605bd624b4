#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "protocol.h"

#define ROOM 128 /* a power of two; a line has 77 characters at most */

static volatile uint8_t buffer[ROOM];
static volatile uint8_t written;
static uint8_t taken;

/* What does not fit is lost, and its line with it: the CRC says so. */
ISR(USART_RX_vect) {
  const uint8_t character = UDR0;
  const uint8_t next = (written + 1) % ROOM;
  if (next == taken) return;
  buffer[written] = character;
  written = next;
}

void serial_begin(void) {
  PORTD |= _BV(PD0); /* nothing connected: no noise */
  UBRR0 = (F_CPU / 8 / BOARD_BAUD - 1) / 2;
  UCSR0B = _BV(RXCIE0) | _BV(RXEN0) | _BV(TXEN0);
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00); /* 8N1 */
}

int16_t serial_take(void) {
  if (taken == written) return -1;
  const uint8_t character = buffer[taken];
  taken = (taken + 1) % ROOM;
  return character;
}

void serial_put(char character) {
  while (!(UCSR0A & _BV(UDRE0))) continue;
  UDR0 = character;
}
