/* Which pin of the microcontroller goes to which line of the chip. src/board/wiring.cpp tells
   people the same; a test holds the two together. */
#ifndef PINS_H
#define PINS_H

#include <avr/io.h>

/* AD2-AD7 on port D; the two lowest pins there are the serial port. AD0 and AD1 on port B. */
#define BUS_ON_D 0xFC
#define BUS_ON_B 0x03

#define PIN_AS PB2
#define PIN_RD PB3
#define PIN_WR PB4
#define PIN_LED PB5 /* lit while the chip has its supply */
#define PIN_CS PC0
#define PIN_GATE PC1 /* of a P-channel transistor: low = the chip has its supply */
#define ADC_SENSE 5  /* PC5, the chip's supply */

#endif
