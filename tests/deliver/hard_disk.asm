; First sector of a hard disk that only says that it was started.

        org     7C00h
        xor     ax, ax
        mov     ds, ax
        mov     si, text
.next:  lodsb
        test    al, al
        jz      .wait
        mov     ah, 0Eh
        mov     bx, 7
        int     10h
        jmp     .next
.wait:  hlt
        jmp     .wait
text:   db      "The hard disk has started.", 13, 10, 0
        times   510 - ($ - $$) db 0
        dw      0AA55h
