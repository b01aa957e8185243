// A box with dividers by the host layer: it is made, cut, proved, laid out on a sheet and written as G-code for a beam, to standard output:
//     c++ -std=c++17 box.cpp $(pkg-config --cflags --libs dryfit) -o box && ./box > box.nc
// Beams, fumes and fire do harm: the instructions of the machine's maker and local rules come first. The power here is 0: it runs dry.
#include <dryfit.hpp>

#include <iostream>

static void say(const dryfit::Report &report)
{
    dryfit_findings found;
    dryfit::call(dryfit_report_findings, report.get(), &found);
    for (std::size_t number = 0; number < found.problems; number++) {
        std::cerr << dryfit::text(dryfit_report_problem, report.get(), number) << "\n";
    }
    if (found.problems > 0) {
        throw std::runtime_error("it does not fit");
    }
    std::cerr << "it fits: gaps from " << dryfit_length_to_mm(found.gap_min) << " mm to " << dryfit_length_to_mm(found.gap_max) << " mm\n";
}

static void work()
{
    dryfit_box spec{};
    spec.size[0] = 110 * DRYFIT_MM;
    spec.size[1] = 85 * DRYFIT_MM;
    spec.size[2] = 60 * DRYFIT_MM;
    spec.thickness = 3 * DRYFIT_MM;
    spec.top = DRYFIT_TOP_OPEN;
    spec.dividers[0] = 2;
    const auto boards = dryfit::make<dryfit::Assembly>(dryfit_assembly_of_box, &spec);

    dryfit_cut cut{};
    cut.cutter.tool = DRYFIT_TOOL_BEAM;
    cut.cutter.width = DRYFIT_MM / 5;
    cut.fit.cheek = DRYFIT_MM / 20;
    const auto parts = dryfit::make<dryfit::Parts>(dryfit_parts_cut, boards.get(), &cut);
    say(dryfit::make<dryfit::Report>(dryfit_parts_dry_fit, parts.get()));

    for (const dryfit_step &step : dryfit::all<dryfit_step>(dryfit_assembly_order, boards.get())) {
        std::cerr << step.step + 1 << ". " << dryfit::text(dryfit_assembly_name, boards.get(), step.board) << "\n";
    }

    dryfit_stock sheet{};
    sheet.thickness = spec.thickness;
    sheet.width = 500 * DRYFIT_MM;
    sheet.height = 350 * DRYFIT_MM;
    sheet.border = 8 * DRYFIT_MM;
    sheet.gap = DRYFIT_MM;
    const auto layout = dryfit::make<dryfit::Layout>(dryfit_layout_new, parts.get(), &sheet, 1u, nullptr, nullptr, nullptr);

    dryfit_motion motion{};
    motion.cutter = cut.cutter;
    const auto write = [](std::string_view bytes) { std::cout.write(bytes.data(), static_cast<std::streamsize>(bytes.size())); };
    std::cout.exceptions(std::ios::badbit | std::ios::failbit);
    dryfit::written(write, dryfit_layout_gcode, layout.get(), 0u, &motion, "Box");
    std::cout.flush();
}

int main()
{
    try {
        work();
    } catch (const std::exception &error) {
        std::cerr << error.what() << "\n";
        return 1;
    }
    return 0;
}
