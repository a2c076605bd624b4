; What the debugger's capture script enters: reads the clock chip into 200h-27Fh. Registers first, when
; no update is under way. Kept short for typing.

        cpu     8086
        org     100h
%include "places.inc"
places_start

        cli
        mov     di, 200h
.busy:  mov     al, 8Ah                 ; register A, NMI off
        out     70h, al
        in      al, 71h
        cbw                             ; AH = bit 7 = update in progress, which reads FFh
        test    ah, ah
        loopnz  .busy                   ; but not for ever: there may be no chip
        xor     bx, bx
.byte:  mov     al, bl
        or      al, 80h
        out     70h, al
        in      al, 71h
        stosb
        inc     bx
        cmp     bl, 80h
        jne     .byte
        mov     al, 0Dh
        out     70h, al
        sti
        int     20h                     ; shows no registers, so that only the dump holds hex
places_end
