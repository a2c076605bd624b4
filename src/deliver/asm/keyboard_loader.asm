; First line of the keyboard program: 64 characters that every keyboard has, and a program as well.
; It turns the letters of the following lines into bytes, two letters a byte, and runs into them.
;
; DOS loads it at 100h and leaves a word of zeros on the stack. Line ends are skipped, so the text may
; be broken anywhere between pairs. Every pair of capital letters stands for
;     byte = first letter + 10 * second letter (modulo 256),
; which is what AAD computes on every processor of the family, those included that ignore its operand.
; A pair that gives 0 ends the text. The bytes are put where this line ends, over letters that have
; been read.
;
; No digit 0 or 1 and no small l is among the characters, so that O, I and they cannot be mixed up.
;
; Seven bytes of the loop cannot be typed. They are typed with `low` or `high` added, which the code
; in front takes off again. It does so more than 32 bytes ahead, the length of the longest instruction
; queue in the family that does not notice such changes.

        cpu     8086
        org     100h
%include "places.inc"
places_start

low     equ     'w'
high    equ     'c'
base    equ     104h                    ; the changed bytes lie '2' to ';' behind it
at_base equ     origin + 4

        pop     ax                      ; 0
        xor     ax, high << 8 | low
        push    ax
        pop     dx                      ; DH = high, DL = low
        xor     ax, (high << 8 | low) ^ base
        push    ax
        pop     si                      ; SI = base
        sub     [byte si + at_lodsw - at_base], dl
        sub     [byte si + at_jb + 1 - at_base], dx      ; two bytes, with the borrow between them
        sub     [byte si + at_aad + 1 - at_base], dh
        sub     [byte si + at_stosb - at_base], dl
        sub     [byte si + at_jnz + 1 - at_base], dl
        db      "CABINFACEMAGICBEACON"  ; INC and DEC of registers that hold nothing: distance
        xor     al, 'F'                 ; AX = 142h: behind the line end
        push    ax
        pop     si                      ; from there
        push    ax
        pop     di
        dec     di
        dec     di                      ; to 140h, where this line ends

%define veiled(byte, by) ((byte + by) & 0FFh)
at_lodsw:
        db      veiled(0ADh, low)       ; LODSW: first letter in AL, second in AH
        cmp     al, '9'                 ; a line end?
at_jb:  db      72h, veiled(0FBh, low)  ; JB at_lodsw
at_aad: db      veiled(0D5h, high + 1), veiled(0Ah, high)       ; AAD; + 1: that borrow
at_stosb:
        db      veiled(0AAh, low)       ; STOSB, which keeps the flags
at_jnz: db      75h, veiled(0F6h, low)  ; JNZ at_lodsw, until AAD gave 0

%if $ - origin != 64
%error "the line must have 64 characters"
%endif
%if base ^ 'F' != 142h
%error "the text must start behind the line end"
%endif
places_end
