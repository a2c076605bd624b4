#!/usr/bin/env python3
"""Writes the listings that programs print, so that the collection can be made again.

make.py   needs xxd, hexdump, od, gdb, gcc, binutils, srec_cat, openssl, base64, busybox, hexyl, perl, node,
          php, ruby, lua5.4, jq and python3; leaves the files beside itself.

A file's name begins with what it holds: a64 and b128 are the two invented chips below, a50 and b114
their RAM parts. A name with "ask" in it must be refused with its readings side by side. What comes from
no program here is written in the style of one, and listed in typed.py.
"""
import os, pathlib, subprocess, tempfile

here = pathlib.Path(__file__).parent
A = bytes.fromhex(
    "21005800050005150294260250800000" "4000F000418002800127000000000000"
    "0000000000000000000000000000029B" "80011900A53C7E119F00C20864E7B04D")
B = bytes.fromhex(
    "47001300220003281031260250800000" "4400332F0D8002003C2F3100005A17C3"
    "086E0091D40300FF1200007B0020068F" "003C208011E56A09F30048617A656C2E"
    "C0FFEE0012345678FEDCBA9876543210" "00000000000000000000000000000000"
    "00000000000000000000000000000000" "5368656C6620342C206C6566740AE19C")
images = {"a64": A, "b128": B, "a50": A[14:], "b114": B[14:]}


def run(*words, stdin=b"", env=None):
    return subprocess.run(words, input=stdin, check=True, capture_output=True,
                          env={**os.environ, **(env or {}), "LC_ALL": "C"}).stdout


def put(chip, name, content):
    (here / f"{chip}-{name}.txt").write_bytes(content)


def all_of(name, make, chips=("a64", "b128")):
    for chip in chips:
        with tempfile.TemporaryDirectory() as folder:
            old = os.getcwd()
            os.chdir(folder)
            pathlib.Path("cmos.bin").write_bytes(images[chip])
            content = make()
            os.chdir(old)
            put(chip, name, content)


program = lambda *words: lambda: run(*words)
every = ("a64", "b128", "a50", "b114")


def main():
    all_of("hexdump-C", program("hexdump", "-C", "cmos.bin"), every)
    all_of("hexdump-Cv", program("hexdump", "-Cv", "cmos.bin"), ("b128",))
    all_of("hexdump-plain", program("hexdump", "cmos.bin"), every)
    all_of("hexdump-b", program("hexdump", "-b", "cmos.bin"))
    all_of("hexdump-d", program("hexdump", "-d", "cmos.bin"))
    all_of("hexdump-o", program("hexdump", "-o", "cmos.bin"))
    all_of("hexdump-x", program("hexdump", "-x", "cmos.bin"))
    all_of("hexdump-e-bytes", program("hexdump", "-v", "-e", '16/1 "%02x " "\\n"', "cmos.bin"))
    all_of("hexdump-e-addressed", program("hexdump", "-v", "-e", '"%04_ax: " 8/1 "%02X " "\\n"', "cmos.bin"))
    all_of("hd", program("hd", "cmos.bin"), ("a64",))
    all_of("xxd", program("xxd", "cmos.bin"), every)
    all_of("xxd-e", program("xxd", "-e", "cmos.bin"))
    all_of("xxd-e-g2", program("xxd", "-e", "-g2", "cmos.bin"), ("a64",))
    all_of("xxd-g1", program("xxd", "-g1", "cmos.bin"), ("a64",))
    all_of("xxd-g4-u", program("xxd", "-g4", "-u", "cmos.bin"), ("b128",))
    all_of("xxd-c8", program("xxd", "-c8", "cmos.bin"), ("a64",))
    all_of("xxd-c32", program("xxd", "-c32", "cmos.bin"), ("b128",))
    all_of("xxd-b", program("xxd", "-b", "cmos.bin"))
    all_of("xxd-p", program("xxd", "-p", "cmos.bin"), every)
    all_of("xxd-i", program("xxd", "-i", "cmos.bin"), every)
    all_of("xxd-a", program("xxd", "-a", "cmos.bin"), ("b128",))
    all_of("xxd-d", program("xxd", "-d", "cmos.bin"), ("b128",))
    all_of("xxd-o", program("xxd", "-o", "0x404040", "cmos.bin"), ("a64",))
    all_of("od-plain", program("od", "cmos.bin"))
    all_of("od-x", program("od", "-x", "cmos.bin"), every)
    all_of("od-b", program("od", "-b", "cmos.bin"))
    all_of("od-d", program("od", "-d", "cmos.bin"), ("a64",))
    all_of("od-tx1", program("od", "-tx1", "cmos.bin"), every)
    all_of("od-tx1z", program("od", "-tx1z", "cmos.bin"), ("b128",))
    all_of("od-An-tx1", program("od", "-An", "-v", "-tx1", "cmos.bin"))
    all_of("od-An-x-ask", program("od", "-An", "-v", "-x", "cmos.bin"))
    all_of("od-Ad-tu1", program("od", "-Ad", "-tu1", "cmos.bin"))
    all_of("od-Ax-td1", program("od", "-Ax", "-td1", "cmos.bin"))
    all_of("od-td2", program("od", "-td2", "cmos.bin"), ("b128",))
    all_of("od-tu2", program("od", "-tu2", "cmos.bin"), ("a64",))
    all_of("od-tx4", program("od", "-tx4", "cmos.bin"), every)
    all_of("od-tx8", program("od", "-tx8", "cmos.bin"), ("b128",))
    all_of("od-to4", program("od", "-to4", "cmos.bin"), ("a64",))
    all_of("od-Ad-tx1-w8", program("od", "-Ad", "-tx1", "-w8", "cmos.bin"))
    all_of("od-An-tu1", program("od", "-An", "-v", "-tu1", "cmos.bin"), every)
    all_of("od-An-to1", program("od", "-An", "-v", "-to1", "cmos.bin"), ("b128",))
    all_of("busybox-hexdump", program("busybox", "hexdump", "-C", "cmos.bin"), ("a64",))
    all_of("busybox-xxd", program("busybox", "xxd", "cmos.bin"), ("b128",))
    all_of("busybox-od", program("busybox", "od", "-t", "x1", "cmos.bin"), ("a64",))
    all_of("hexyl", program("hexyl", "--color=never", "cmos.bin"))
    all_of("hexyl-ascii", program("hexyl", "--color=never", "--border=ascii", "cmos.bin"), ("a64",))
    all_of("srec_cat-hex-dump", program("srec_cat", "cmos.bin", "-binary", "-o", "-", "-hex-dump"))
    all_of("srec_cat-asm", program("srec_cat", "cmos.bin", "-binary", "-o", "-", "-asm"), ("a64",))
    all_of("srec_cat-basic", program("srec_cat", "cmos.bin", "-binary", "-o", "-", "-basic"))
    all_of("srec_cat-c", program("srec_cat", "cmos.bin", "-binary", "-o", "-", "-c-array"))
    all_of("openssl-base64", program("openssl", "base64", "-in", "cmos.bin"), every)
    all_of("base64-w0", program("base64", "-w0", "cmos.bin"), ("b128",))
    all_of("openssl-colons", lambda: run("perl", "-e", 'local $/; open F,"cmos.bin"; binmode F; $_=<F>;'
           'my @b=map{sprintf "%02x",$_} unpack "C*"; while(@b){print "    ",join(":",splice @b,0,15),(@b?":":""),"\\n"}'))


    def elf():
        pathlib.Path("c.c").write_text("unsigned char cmos[] = {" + ",".join(map(str, pathlib.Path("cmos.bin").read_bytes()))
                                       + "}; int main(void){return cmos[0];}\n")
        run("gcc", "-g", "-no-pie", "-o", "c", "c.c")


    def gdb(command):
        def make():
            elf()
            return run("gdb", "-q", "-batch", "-nx", "-ex", command, "./c")
        return make


    for chip, size in (("a64", 64), ("b128", 128)):
        all_of("gdb-xb", gdb(f"x/{size}xb &cmos"), (chip,))
        all_of("gdb-ub", gdb(f"x/{size}ub &cmos"), (chip,))
        all_of("gdb-ob", gdb(f"x/{size}ob &cmos"), (chip,))
        all_of("gdb-tb", gdb(f"x/{size}tb &cmos"), (chip,))
    all_of("gdb-print-x", gdb("print/x cmos"), ("b128",))
    all_of("objdump-s", lambda: (run("objcopy", "-I", "binary", "-O", "elf64-x86-64", "cmos.bin", "c.o"),
                                 run("objdump", "-s", "-j", ".data", "c.o"))[1])
    all_of("readelf-x", lambda: (run("objcopy", "-I", "binary", "-O", "elf64-x86-64", "cmos.bin", "c.o"),
                                 run("readelf", "-x", ".data", "c.o"))[1], ("a64",))


    def python(code):
        return program("python3", "-c", "b=open('cmos.bin','rb').read()\n" + code)


    all_of("python-repr", python("print(b)"), every)
    all_of("python-list", python("print(list(b))"))
    all_of("python-hex", python("print(b.hex())"))
    all_of("python-hex-blanks", python("print(b.hex(' '))"), ("b128",))
    all_of("python-hex-groups-ask", python("print(b.hex('-', 8))"), ("a64",))
    all_of("python-hex-list", python("print([hex(x) for x in b])"))
    all_of("python-enumerate", python("for i, x in enumerate(b): print(i, x)"))
    all_of("python-enumerate-hex", python("for i, x in enumerate(b): print(f'{i:02X}: {x:02X}')"))
    all_of("python-reg", python("for i, x in enumerate(b): print(f'Reg[0x{i:02X}] = 0x{x:02X}')"))
    all_of("python-reg-decimal", python("for i, x in enumerate(b): print(f'{i}: 0x{x:02X}')"))
    all_of("python-csv", python("for i, x in enumerate(b): print(f'{i},{x}')"))
    all_of("python-csv-head", python("print('address,value')\nfor i, x in enumerate(b): print(f'0x{i:02X},0x{x:02X}')"))
    all_of("python-tabs", python("for i, x in enumerate(b): print(f'{i:02x}\\t{x:02x}')"), ("a64",))
    all_of("python-bin", python("for i, x in enumerate(b): print(f'{i:3d}  {x:08b}')"), ("a64",))
    all_of("python-markdown", python(
        "print('|    | ' + ' | '.join(f'x{i:X}' for i in range(16)) + ' |')\nprint('|---' * 17 + '|')\n"
        "for r in range(0, len(b), 16): print(f'| {r:02X} | ' + ' | '.join(f'{x:02X}' for x in b[r:r+16]) + ' |')"))
    all_of("python-json-object", python("import json\nprint(json.dumps({'chip': 'bench 3', 'cmos': list(b)}))"), ("a64",))
    all_of("python-rows-plain", python(
        "for r in range(0, len(b), 8): print(' '.join(f'{x:02X}' for x in b[r:r+8]))"))
    all_of("perl-unpack", program("perl", "-e", 'local $/; open F,"cmos.bin"; binmode F; print unpack("H*",<F>),"\\n"'), ("a64",))
    all_of("perl-x", program("perl", "-e", 'local $/; open F,"cmos.bin"; binmode F; printf "%s", join "", map {sprintf "\\\\x%02x",$_} unpack "C*",<F>'), ())
    all_of("perl-vec", program("perl", "-e", 'local $/; open F,"cmos.bin"; binmode F; my $i=0; printf "%02X=%02X%s", $i, $_, ++$i%8?"  ":"\\n" for unpack "C*",<F>'), ())
    node = lambda code: program("node", "-e", "const b=require('fs').readFileSync('cmos.bin');" + code)
    all_of("node-array", node("console.log([...b])"), ())
    all_of("node-json", node("console.log(JSON.stringify(b))"))
    all_of("node-join", node("console.log([...b].join(', '))"), ("b128",))
    all_of("node-hex-unpadded", node("console.log([...b].map(x=>x.toString(16)).join(' '))"), ("b128",))
    all_of("node-uint8", node("console.log('const cmos = new Uint8Array(['+[...b].map(x=>'0x'+x.toString(16).padStart(2,'0')).join(', ')+']);')"), ("a64",))
    all_of("node-octal-words", node("let t='';for(let i=0;i<b.length;i+=2){t+=(b[i]|b[i+1]<<8).toString(8).padStart(6,'0')+(i%16==14?'\\n':' ')}process.stdout.write(t)"), ())
    all_of("php-string", program("php", "-r", '$b=file_get_contents("cmos.bin"); echo "$cmos = \\""; foreach(str_split($b) as $c) printf("\\\\x%02x", ord($c)); echo "\\";\\n";'), ())
    all_of("php-export", program("php", "-r", 'echo implode(",", array_map(fn($c)=>sprintf("0x%02X",ord($c)), str_split(file_get_contents("cmos.bin"))))."\n";'), ("b128",))
    all_of("ruby-inspect", program("ruby", "-e", 'p File.binread("cmos.bin")'))
    all_of("ruby-bytes", program("ruby", "-e", 'p File.binread("cmos.bin").bytes'), ("a64",))
    all_of("lua-table", program("lua5.4", "-e", 'local b=io.open("cmos.bin","rb"):read("a") io.write("cmos = {") for i=1,#b do io.write(b:byte(i),", ") end io.write("}\\n")'), ("a64",))

    all_of("jq-array", lambda: run("jq", "-c", ".", stdin=run("python3", "-c", "print(list(open('cmos.bin','rb').read()))")), ("b128",))
    all_of("jq-lines", lambda: run("jq", ".", stdin=run("python3", "-c", "print(list(open('cmos.bin','rb').read()))")), ("a64",))


if __name__ == "__main__":
    main()
