; What the debugger script enters: writes bytes into the clock chip and compares them. It is kept short,
; because a person may have to type it in hex.
;
; Behind the code stand runs: address with bit 7 set (port 70h: NMI off), count, bytes. A run of 0, 0
; ends them. Two last bytes make the sum over all of it come out at 0, so that nothing is written
; when a byte was mistyped.
;
; It ends with INT 3, where the debugger shows the registers: BX = 0000 when all is well, another
; value right after the sum when something was mistyped, else BL = 80h + address of the byte that
; did not take.

        cpu     8086
        org     100h
%include "places.inc"
places_start

        mov     si, origin
        mov     cx, 0
place_last length, 2                    ; of code and runs
        xor     bx, bx
.sum:   lodsb
        add     bl, al                  ; BL: plain sum; BH: sum of the sums, which minds the order
        add     bh, bl
        loop    .sum
        test    bx, bx
        jnz     done
        cli
pass:   mov     si, runs
run:    lodsw
        xchg    ax, bx                  ; BL = address, BH = count
        test    bx, bx
        jz      next_pass
next:   lodsb
        mov     ah, al
        mov     al, bl
        out     70h, al
        mov     al, ah
access: out     71h, al                 ; IN AL, 71h in the second pass
        cmp     al, ah                  ; there: did it take?
        jne     done
        inc     bl                      ; not BX: FFh, address 7Fh, must not carry into the count
        dec     bh
        jnz     next
        jmp     run
next_pass:
        xor     byte [access], 2        ; OUT = E6h becomes IN = E4h, and back
        jpe     pass                    ; E4h has an even number of ones, E6h an odd one
done:   mov     al, 0Dh                 ; a register that cannot be written, and NMI on
        out     70h, al
        sti
        int3
runs:
places_end
