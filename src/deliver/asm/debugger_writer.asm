; What the debugger script enters: checks everything that was typed, and only then writes bytes into the
; clock chip and reads them back. It is kept short, because a person may have to type it in hex.
;
; Nothing typed wrong can write to the chip, wherever it is entered: the instructions OUT 70h, AL and
; OUT 71h, AL stand nowhere. Their bytes are made of the CRC over everything typed, which comes out at
; E6h, 71h when all of it is right. Until then INT 3 stands in their place, which ends the program.
;
; Behind the code stand runs: address with bit 7 set (port 70h: NMI off), count, bytes. A run of address
; 0Dh and count 0 ends them, which leaves port 70h there with NMI on. Two last bytes make the CRC come
; out.
;
; It ends with INT 3, where the debugger shows the registers. BX goes on with the CRC, over every byte
; written and every byte read back: it shows the script's sign when all of them took, and neither zeros nor
; a program that went astray come to it. BP less 80h is the address of a byte that did not take.

        cpu     8086
        org     100h
%include "places.inc"
places_start

        mov     si, origin
        mov     bx, -1                  ; CRC-16/IBM-3740
check:  lodsb
        call    crc
        cmp     si, origin
place_last end, 2                       ; of code and runs
        jne     check
        mov     [access], bx            ; OUT 71h, AL when all is right, else nonsense
        dec     bh
        mov     [select], bx            ; OUT 70h, AL
        cmp     bx, 70E6h
        je      right                   ; a jump, so that nothing fetched before the change is run
        int3
right:  cli
        mov     di, runs
pass:   mov     si, di
run:    lodsw
        xchg    ax, dx                  ; DL = address, DH = count
next:   mov     al, dl
select: int3                            ; OUT 70h, AL
        int3
        dec     dh
        js      passed
        lodsb
        mov     ah, al
access: int3                            ; OUT 71h, AL, and then IN AL, 71h
        int3
        cmp     al, ah                  ; in the second pass: did it take?
        je      took
        mov     bp, dx
took:   call    crc
        inc     dl                      ; not DX: FFh, address 7Fh, must not carry into the count
        test    dh, dh
        jnz     next
        jmp     run
passed: mov     di, origin
place_last compared_from, 2             ; the second pass leaves out what does not stay
        xor     byte [access], 2        ; OUT = E6h becomes IN = E4h, and back
        jpe     pass                    ; E4h has an even number of ones, E6h an odd one
        sti
        int3

; Takes the byte AL into the CRC in BX. Changes CX.
crc:    xor     bh, al
        mov     cx, 8
.bit:   add     bx, bx
        jnc     .next
        xor     bx, 1021h
.next:  loop    .bit
        ret
runs:
places_end
