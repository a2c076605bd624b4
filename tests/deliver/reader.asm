; An independent reader: a boot sector that sends the chip's 128 bytes to port E9h, where the emulator
; writes them to a file, and then switches the emulator off through port F4h. It shares no line with
; the programs it checks.

        org     7C00h
        cli
.busy:  mov     al, 0Ah
        out     70h, al
        in      al, 71h
        test    al, 80h
        jnz     .busy
        xor     bl, bl
.next:  mov     al, bl
        out     70h, al
        in      al, 71h
        out     0E9h, al
        inc     bl
        jns     .next
        xor     al, al
        out     0F4h, al
        hlt
        times   510 - ($ - $$) db 0
        dw      0AA55h
