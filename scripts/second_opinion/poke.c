/* poke FILE: writes bytes 0E to 3F of an image to the clock chip, behind ports 70h and 71h. */
#include <stdio.h>
#include <sys/io.h>

int main(int argc, char **argv)
{
	unsigned char image[64];
	FILE *file = argc == 2 ? fopen(argv[1], "rb") : NULL;

	if (!file || fread(image, 1, sizeof image, file) != sizeof image)
		return 1;
	if (ioperm(0x70, 2, 1))
		return 2;
	for (int at = 0x0E; at < 64; at++) {
		outb(at, 0x70);
		outb(image[at], 0x71);
	}
	return 0;
}
