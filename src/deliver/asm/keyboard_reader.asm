; What the letters of the keyboard program that reads stand for: checks everything that was typed, and
; only then reads the chip and prints it as rows (rows.inc has the form). No byte of it is 00h.
;
; The one instruction that touches the chip, OUT 70h, AL, is made of the CRC over everything typed; INT
; 20h stands in its place until then. OUT 71h, AL stands nowhere. Subroutines lie in front of their
; calls: a call forwards has a 00h.

        cpu     8086
        org     140h
%include "places.inc"
places_start

buffer  equ     7F70h                   ; 16 bytes far behind the program

%include "keyboard_check.inc"
        dec     bh
        mov     [select], bx            ; OUT 70h, AL when all is right
        cmp     bl, 0E6h                ; two tests, so that no slip in one of them lets it pass
        jne     stop
        cmp     bh, 70h
        je      right
stop:   int     20h

; Reads the chip's byte AL (bit 7: NMI off) into AL.
fetch:
select: int     20h                     ; OUT 70h, AL
        in      al, 71h
        ret

; Shows AL, 0 to 15, as a hex digit; `put` shows the character AL. Changes AX, DL; CX = 0.
digit:  add     al, 90h
        daa
        adc     al, 40h
        daa
put:    mov     dl, al
        mov     ah, 2
        int     21h
        xor     cx, cx
        ret

; Takes AL into the CRC-8/SMBUS in DH and shows it. Changes AX, CX, DL.
show:   push    ax
        xor     dh, al
        mov     cl, 8
.bit:   shl     dh, 1
        jnc     .next
        xor     dh, 7
.next:  loop    .bit
        pop     ax
hex:    push    ax
        mov     cl, 4
        shr     al, cl
        call    digit
        pop     ax
        and     al, 0Fh
        jmp     digit

line:   mov     al, 0Dh
        call    put
        mov     al, 0Ah
        jmp     put

right:  call    line
        xor     bx, bx
row:    mov     di, buffer
        cli
busy:   mov     al, 8Ah                 ; register A
        call    fetch
        cbw                             ; AH = bit 7, an update in progress
        test    ah, ah
        loopnz  busy                    ; but not for ever: there may be no chip
byte_:  mov     al, bl
        or      al, 80h
        call    fetch
        stosb
        inc     bx
        test    bl, 0Fh
        jnz     byte_
        mov     al, 0Dh                 ; a register that cannot be written, and NMI on
        call    fetch
        sti
        xor     cx, cx
        xor     dh, dh
        mov     al, bl
        sub     al, 10h
        call    show
        mov     al, ':'
        call    put
        mov     si, buffer
next:   mov     al, ' '
        call    put
        lodsb
        call    show
        cmp     si, buffer + 16
        jne     next
        mov     al, ' '
        call    put
        mov     al, '='
        call    put
        mov     al, dh
        call    hex
        call    line
        cmp     bl, 80h
place_last size, 1                      ; 40h for a chip of 64 bytes
        jb      row
        int     20h
        nop                             ; never run: varied until the code's own bytes come out well
place_last spare, 1
places_end
