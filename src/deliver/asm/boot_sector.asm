; First sector of a boot floppy: loads the program that stands in consecutive sectors and starts it
; at 0800h:0100h. Nothing of DOS is needed. Errors are tried again: a drive that has just been
; switched on misses its first read as a rule.

        cpu     8086
        org     7C00h
%include "places.inc"
places_start

program_segment equ 0800h
tries           equ 5

        jmp     short start
        nop
        db      "RTCMEND "
place parameters, 51            ; the BIOS parameter block, up to 3Dh

start:  xor     ax, ax
        cli
        mov     ss, ax
        mov     sp, 7C00h
        sti
        cld
        mov     ds, ax
        mov     [drive], dl
        mov     ax, program_segment
        mov     es, ax
        mov     bx, 100h
.sector:
        mov     bp, tries
.try:   call    read_sector
        jnc     .read
        xor     ah, ah                  ; reset the drive
        int     13h
        dec     bp
        jnz     .try
        mov     si, failed
.show:  lodsb
        test    al, al
        jz      .wait
        mov     ah, 0Eh
        push    bx
        mov     bx, 7
        int     10h
        pop     bx
        jmp     .show
.wait:  xor     ah, ah
        int     16h
        int     19h
.read:  add     bx, 512
        inc     word [first]
        dec     word [count]
        jnz     .sector
        mov     ax, program_segment
        cli
        mov     ss, ax
        mov     sp, 7F00h
        sti
        jmp     program_segment:100h

; Reads sector [first] to ES:BX. CF = 1 when it failed. DL = drive.
read_sector:
        mov     ax, [first]
        xor     dx, dx
        div     word [7C18h]            ; sectors a track, in the parameter block
        inc     dx
        mov     cx, dx                  ; CL = sector, counted from 1
        xor     dx, dx
        div     word [7C1Ah]            ; heads
        mov     dh, dl
        mov     dl, [drive]
        mov     ch, al                  ; cylinder, under 80
        mov     ax, 201h
        int     13h
        ret

failed: db      13, 10, "This disk cannot be read. Put another one in and press a key.", 13, 10, 0
drive:  db      0
place first, 2                  ; sector of the program's start
place count, 2                  ; its sectors

        times   510 - ($ - $$) db 0
        dw      0AA55h
places_end
