"""The boards: which chip each stands for, how Rust and C are built for it, and how it is emulated."""

from dataclasses import dataclass

ARM = ("-display", "none", "-monitor", "none", "-serial", "stdio", "-semihosting-config", "enable=on,target=native")
RISCV = ("-display", "none", "-monitor", "none", "-serial", "stdio", "-bios", "none")


@dataclass(frozen=True)
class Board:
    name: str
    chip: str
    triple: str
    prefix: str
    flags: tuple
    sources: tuple
    # Every instruction takes the same time, so that the board's clock counts instructions.
    emulator: tuple
    # Ticks of the board's clock a thousand instructions.
    ticks: int

    @property
    def script(self):
        return f"{self.name}.ld"


# 64 ns an instruction: SysTick has 25 MHz on the MPS2, 16 MHz on the nRF51; minstret counts the instructions themselves.
BOARDS = (
    Board(
        name="mps2",
        chip="Cortex-M4F",
        triple="thumbv7em-none-eabihf",
        prefix="arm-none-eabi-",
        flags=("-mcpu=cortex-m4", "-mthumb", "-mfloat-abi=hard", "-mfpu=fpv4-sp-d16"),
        sources=("cortex_m.c", "mps2.c"),
        emulator=("qemu-system-arm", "-machine", "mps2-an386", *ARM, "-icount", "shift=6"),
        ticks=1600,
    ),
    # The emulator has no Cortex-M0+. The Cortex-M0 has the same instruction set, ARMv6-M; the image is built for the M0+.
    Board(
        name="microbit",
        chip="Cortex-M0+",
        triple="thumbv6m-none-eabi",
        prefix="arm-none-eabi-",
        flags=("-mcpu=cortex-m0plus", "-mthumb"),
        sources=("cortex_m.c", "microbit.c"),
        emulator=("qemu-system-arm", "-machine", "microbit", *ARM, "-icount", "shift=6"),
        ticks=1024,
    ),
    Board(
        name="virt",
        chip="RV32IMAC",
        triple="riscv32imac-unknown-none-elf",
        prefix="riscv64-unknown-elf-",
        flags=("-march=rv32imac_zicsr", "-mabi=ilp32"),
        sources=("virt.c",),
        emulator=("qemu-system-riscv32", "-machine", "virt", "-cpu", "rv32", *RISCV, "-icount", "shift=0"),
        ticks=1000,
    ),
)
