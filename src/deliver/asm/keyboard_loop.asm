; The loop at the end of keyboard_loader.asm as it stands in memory once its veil is off; the check over
; everything typed goes over these bytes.

        cpu     8086
        org     136h
%include "places.inc"
places_start

again:  lodsw
        cmp     al, '9'
        jb      again
        aad     10
        stosb
        jnz     again
places_end
