; What the letters of the keyboard program stand for: checks everything that was typed, and only then
; writes the chip, compares, and says so. No byte of it is 00h, which would end the decoding.
;
; It goes through memory from the first typed character on and prints a letter for every 16 bytes, that
; is for every line of 32 letters, four for the first line. The letters stand on the typing sheet, so
; that a person finds the first line that is wrong.
;
; Nothing typed wrong can write to the chip: the instructions OUT 70h, AL and OUT 71h, AL stand nowhere.
; Their bytes are made of the CRC over everything typed, which comes out at E6h, 71h when every
; character is right. Until then INT 20h stands in their place, which ends the program.
;
; Behind it stand runs as in debugger_writer.asm, ended by 0, 0. All of it is xored with `veil`, so
; that no byte 00h remains; the bytes to write also with their address (bit 7 set), so that like bytes do not
; give like letters, among which one loses the place. Then two bytes that make the CRC come out.

        cpu     8086
        org     140h
%include "places.inc"
places_start

        dec     di                      ; the end: in front of the 00h
        mov     si, 101h
        dec     si                      ; 100h
        mov     bx, -1                  ; CRC-16/IBM-3740
        xor     cx, cx
check:  lodsb
        xor     bh, al
        mov     cl, 8
.bit:   add     bx, bx
        jnc     .next
        xor     bx, 1021h
.next:  loop    .bit
        mov     ax, si
        and     al, 0Fh
        jnz     .more
        mov     dl, bl
        and     dl, 0Fh
        add     dl, 'A'
        mov     ah, 2
        int     21h
.more:  cmp     si, di
        jne     check
        mov     [access], bx            ; OUT 71h, AL when all is right, else nonsense
        dec     bh
        mov     [select], bx            ; OUT 70h, AL
        mov     [rest], bx
        cmp     bl, 0E6h                ; two tests, so that no slip in one of them lets it pass
        jne     stop
        cmp     bh, 70h
        je      right                   ; a jump, so that nothing fetched before the change is run
stop:   int     20h
right:
        mov     dl, '-'
        mov     bp, runs
pass:   mov     si, bp
        cli
run:    lodsw
        xor     ax, 101h
place_last veil_twice, 2
        jz      passed
        xchg    ax, bx                  ; BL = address with bit 7 set: NMI off; BH = count
next:   lodsb
        xor     al, bl
        xor     al, 1
place_last veil, 1
        mov     ah, al
        mov     al, bl
select: int     20h                     ; OUT 70h, AL
        mov     al, ah
access: int     20h                     ; OUT 71h, AL, and then IN AL, 71h
        cmp     al, ah                  ; in the second pass: did it take?
        jne     show
        inc     bl
        dec     bh
        jnz     next
        jmp     run
passed: mov     bp, 101h
place_last compared_from, 2             ; the second pass leaves out a clock that ticks
        xor     byte [access], 2        ; OUT = E6h becomes IN = E4h, and back
        jpe     pass                    ; E4h has an even number of ones, E6h an odd one
        mov     dl, '+'
show:   mov     al, 0Dh                 ; a register that cannot be written, and NMI on
rest:   int     20h                     ; OUT 70h, AL
        sti
        mov     ah, 2
        int     21h
        int     20h
runs:
places_end
