// The front of a box as an SVG file on standard output, and its vertices counted on the other one:
//     c++ -std=c++17 panel.cpp $(pkg-config --cflags --libs dryfit) -o panel && ./panel 110 85 60 "2.5 mm" > front.svg
#include <dryfit.hpp>

#include <array>
#include <iostream>

static dryfit_nm length(std::string_view text)
{
    dryfit_nm out;
    dryfit::call(dryfit_length_parse, text, &out);
    return out;
}

static void draw(const dryfit_flat_box &box)
{
    const auto write = [](std::string_view bytes) {
        if (!std::cout.write(bytes.data(), static_cast<std::streamsize>(bytes.size()))) {
            throw std::runtime_error("standard output takes no more");
        }
    };
    const dryfit_nm border = 2 * box.at.x;
    auto svg = dryfit::begin<dryfit::Svg>(write, box.outside[0] + border, box.outside[2] + border, "Front", "");
    svg.call(dryfit_svg_line, DRYFIT_LINE_CUT_OUTER, 1);
    svg.cut(dryfit_panel_moves, &box, DRYFIT_FACE_FRONT);
    svg.end();
    std::cout.flush();
}

int main(int count, char **words)
{
    if (count != 5) {
        std::cerr << "usage: panel X Y Z THICKNESS, e.g. panel 110 85 60 \"2.5 mm\"\n";
        return 2;
    }
    try {
        if (!dryfit::fits_library()) {
            throw std::runtime_error("the library is not that of dryfit.h");
        }
        dryfit_flat_box box{};
        for (int axis = 0; axis < 3; axis++) {
            box.outside[axis] = length(words[axis + 1]);
        }
        box.thickness = length(words[4]);
        box.kerf = DRYFIT_MM / 5;
        box.at = {5 * DRYFIT_MM, 5 * DRYFIT_MM};
        draw(box);
        std::cerr << dryfit::all<dryfit_vertex>(dryfit_panel_vertices, &box, DRYFIT_FACE_FRONT).size() << " vertices\n";
    } catch (const std::exception &error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
    return 0;
}
