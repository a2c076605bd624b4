; First sector of a boot floppy: loads the program that stands in consecutive sectors and starts it
; at 0800h:0100h. Nothing of DOS is needed. Errors are tried again: a drive that has just been
; switched on misses its first read as a rule.
;
; The image may have been written to a disk of a larger format, whose tracks hold more sectors than the
; parameters say. So several are tried, until everything is read and comes to the right sums.

        cpu     8086
        org     7C00h
%include "places.inc"
places_start

program_segment equ 0800h
tries           equ 3
end_of_list     equ 0

        jmp     short start
        nop
        db      "RTCMEND "
place parameters, 51            ; the BIOS parameter block, up to 3Dh
sectors_a_track equ 7C18h
heads           equ 7C1Ah

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
        mov     si, tracks
        mov     ax, [sectors_a_track]
geometry:
        mov     [track], ax
        push    si
        call    load
        jc      .wrong
        call    sums
        cmp     ax, [sum]
        jne     .wrong
        cmp     dx, [sum_of_sums]
        je      run
.wrong: pop     si
        lodsb
        xor     ah, ah
        test    al, al                  ; end_of_list
        jnz     geometry
        mov     si, failed
.show:  lodsb
        test    al, al
        jz      .wait
        mov     ah, 0Eh
        mov     bx, 7
        push    si
        int     10h
        pop     si
        jmp     .show
.wait:  xor     ah, ah
        int     16h
        int     19h

run:    mov     ax, program_segment
        cli
        mov     ss, ax
        mov     sp, 7F00h
        sti
        jmp     program_segment:100h

; Loads the program, with [track] sectors a track. CF = 1 when a sector cannot be read.
load:   mov     bx, 100h
        mov     cx, [count]
        mov     ax, [first]
.sector:
        push    ax
        push    cx
        mov     bp, tries
.try:   push    ax
        call    read_sector
        pop     ax
        jnc     .read
        push    ax
        xor     ah, ah                  ; reset the drive
        int     13h
        pop     ax
        dec     bp
        jnz     .try
        pop     cx
        pop     ax
        stc
        ret
.read:  pop     cx
        pop     ax
        inc     ax
        add     bx, 512
        loop    .sector
        clc
        ret

; Reads sector AX to ES:BX. CF = 1 when it failed. DL = drive. Changes AX, CX, DX.
read_sector:
        xor     dx, dx
        div     word [track]
        inc     dx
        mov     cx, dx                  ; CL = sector, counted from 1
        xor     dx, dx
        div     word [heads]
        mov     dh, dl
        mov     dl, [drive]
        mov     ch, al                  ; cylinder, under 80
        mov     ax, 201h
        int     13h
        ret

; Returns AX = sum of the words that were loaded, DX = sum of the sums on the way. Changes CX and SI.
sums:   mov     ch, [count]             ; 256 words a sector
        xor     cl, cl
        xor     ax, ax
        xor     dx, dx
        mov     si, 100h
.next:  add     ax, [es:si]
        add     dx, ax
        inc     si
        inc     si
        loop    .next
        ret

tracks: db      18, 15, 9, 36, end_of_list
failed: db      13, 10, "The image could not be read whole from this disk.", 13, 10
        db      "It is for disks of "
place format, 5                 ; "720K ", "1.44M"
        db      13, 10, "Write it to one, put that in and press a key.", 13, 10, 0
drive:  db      0
track:  dw      0
place first, 2                  ; sector of the program's start
place count, 2                  ; its sectors
place sum, 2
place sum_of_sums, 2

        times   510 - ($ - $$) db 0
        dw      0AA55h
places_end
