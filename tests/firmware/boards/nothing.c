/* A program that does nothing: the linker is told what else to keep. */
int main(void) { return 0; }
