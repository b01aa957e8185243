// C++ that throws through its own frames, with the library linked in: what the library leaves out of unwinding is not missing here.
#include <dryfit.h>

#include <cstdio>
#include <stdexcept>
#include <string>

static int cleaned = 0;

struct Guard {
    ~Guard() { cleaned++; }
};

static void asked(const std::string &text)
{
    const Guard guard;
    dryfit_nm length = 0;
    dryfit_error error;
    if (dryfit_length_parse(text.data(), text.size(), &length, &error) != DRYFIT_OK) {
        throw std::invalid_argument(error.parameter);
    }
}

int main()
{
    asked("3/32 in");
    try {
        asked("some");
    } catch (const std::invalid_argument &error) {
        std::printf("%s, %d cleaned\n", error.what(), cleaned);
    }
    return 0;
}
