/* Dryfit for C++17: dryfit.h, with exceptions for statuses, vectors for buffers, callables for callbacks, and nothing to free by hand.
 *
 * It wraps how calls are made, not each function: hand it the functions of dryfit.h themselves, and the compiler checks their arguments.
 * Where C takes a text and its size, one std::string_view will do.
 *
 *     dryfit_nm thickness;
 *     dryfit::call(dryfit_length_parse, "3/32 in", &thickness);
 *     std::vector<dryfit_vertex> front = dryfit::all<dryfit_vertex>(dryfit_panel_vertices, &box, DRYFIT_FACE_FRONT);
 *     dryfit::each_move([&](const dryfit_move &move) { way.push_back(move.to); }, dryfit_edge_moves, &edge);
 */

#ifndef DRYFIT_HPP
#define DRYFIT_HPP

#include "dryfit.h"

#include <cstddef>
#include <cstdint>
#include <exception>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

namespace dryfit {

/** A status other than 0. `what()` is the whole sentence. */
class Error : public std::runtime_error {
public:
    explicit Error(const dryfit_error &of) : std::runtime_error(sentence(of)), details_(of) {}

    dryfit_status status() const noexcept { return details_.status; }
    const dryfit_error &details() const noexcept { return details_; }

private:
    dryfit_error details_;

    static std::string sentence(const dryfit_error &of)
    {
        std::size_t needed = 0;
        dryfit_error_message(&of, nullptr, 0, &needed);
        std::string words(needed, '\0');
        dryfit_error_message(&of, words.data(), words.size(), &needed);
        words.pop_back();
        return words;
    }
};

namespace detail {

/** What an argument is in C: a text is two. */
template <class Argument> auto spread(const Argument &argument)
{
    constexpr bool writable = std::is_same_v<Argument, char *> || std::is_same_v<Argument, std::nullptr_t>;
    if constexpr (std::is_convertible_v<const Argument &, std::string_view> && !writable) {
        const std::string_view text = argument;
        return std::make_tuple(text.data(), text.size());
    } else {
        return std::make_tuple(argument);
    }
}

/** Whether an argument comes into C as it is: no number is cut short, no pointer becomes another. */
template <class Given, class Takes> constexpr bool fits()
{
    if constexpr (std::is_arithmetic_v<Given> && std::is_arithmetic_v<Takes>) {
        return std::is_floating_point_v<Given> == std::is_floating_point_v<Takes> && sizeof(Given) <= sizeof(Takes);
    } else {
        return std::is_convertible_v<Given, Takes>;
    }
}

template <class... Takes, class... Arguments> dryfit_status status_of(dryfit_status (*function)(Takes...), const Arguments &...arguments)
{
    const auto go = [function](auto... given) -> dryfit_status {
        constexpr bool all = sizeof...(given) == sizeof...(Takes);
        static_assert(all, "another number of arguments than in dryfit.h");
        if constexpr (all) {
            constexpr bool fit = (fits<decltype(given), Takes>() && ...);
            static_assert(fit, "another type than in dryfit.h; lengths are whole nanometres: dryfit_length_from_mm makes them");
            if constexpr (fit) {
                return function(static_cast<Takes>(given)...);
            }
        }
        return DRYFIT_OK;
    };
    return std::apply(go, std::tuple_cat(spread(arguments)...));
}

/** A callable as a callback of C. An exception must not go through C: it stops the work there, and is thrown again behind it. */
template <class Work> class Callback {
public:
    explicit Callback(Work given) : work(std::move(given)) {}

    static int32_t move(void *self, const dryfit_move *move) noexcept { return static_cast<Callback *>(self)->go(*move); }
    static int32_t write(void *self, const char *bytes, std::size_t size) noexcept { return static_cast<Callback *>(self)->go(std::string_view(bytes, size)); }

    /** Calls a function that may call back. False if the callable wanted no more. */
    template <class Function, class... Arguments> bool call(Function function, const Arguments &...arguments) { return cut(nullptr, function, arguments...); }

    /** The same of a function that hands its moves to a file, which tells more of what it refuses. */
    template <class Function, class... Arguments> bool cut(const dryfit_file *file, Function function, const Arguments &...arguments)
    {
        dryfit_error error;
        enough = false;
        const dryfit_status status = status_of(function, arguments..., &error);
        if (thrown) {
            std::rethrow_exception(std::exchange(thrown, nullptr));
        }
        if (status != DRYFIT_OK && !enough) {
            if (file != nullptr) {
                dryfit_file_error(file, &error);
            }
            throw Error(error);
        }
        return status == DRYFIT_OK;
    }

private:
    Work work;
    std::exception_ptr thrown;
    bool enough = false;

    template <class What> int32_t go(What what) noexcept
    {
        try {
            if constexpr (std::is_same_v<std::invoke_result_t<Work &, What>, bool>) {
                enough = !work(what);
            } else {
                work(what);
            }
        } catch (...) {
            thrown = std::current_exception();
        }
        return enough || thrown ? -1 : 0;
    }
};

} // namespace detail

/** Calls a function whose last parameter is the error, which is left to this. */
template <class Function, class... Arguments> void call(Function function, const Arguments &...arguments)
{
    dryfit_error error;
    if (detail::status_of(function, arguments..., &error) != DRYFIT_OK) {
        throw Error(error);
    }
}

/** All results of a function that ends with (out, cap, needed, error): it is asked how many there are, and then for them. */
template <class Result, class Function, class... Arguments> std::vector<Result> all(Function function, const Arguments &...arguments)
{
    std::size_t needed = 0;
    call(function, arguments..., static_cast<Result *>(nullptr), std::size_t{0}, &needed);
    std::vector<Result> out(needed);
    call(function, arguments..., out.data(), out.size(), &needed);
    return out;
}

/** Hands every move of a source (dryfit_edge_moves, dryfit_panel_drag, ...) to a callable. One that returns bool stops with false, and so does this. */
template <class Work, class Source, class... Arguments> bool each_move(Work &&work, Source source, const Arguments &...arguments)
{
    detail::Callback<std::reference_wrapper<std::remove_reference_t<Work>>> callback(work);
    return callback.call(source, arguments..., &decltype(callback)::move, static_cast<void *>(&callback));
}

/** The formats of files. */
struct Gcode { static constexpr auto begin = dryfit_gcode_begin; static constexpr auto cut = dryfit_gcode_cut; static constexpr auto end = dryfit_gcode_end; };
struct Hpgl { static constexpr auto begin = dryfit_hpgl_begin; static constexpr auto cut = dryfit_hpgl_cut; static constexpr auto end = dryfit_hpgl_end; };
struct Svg { static constexpr auto begin = dryfit_svg_begin; static constexpr auto cut = dryfit_svg_cut; static constexpr auto end = dryfit_svg_end; };
struct Dxf { static constexpr auto begin = dryfit_dxf_begin; static constexpr auto cut = dryfit_dxf_cut; static constexpr auto end = dryfit_dxf_end; };
struct Path { static constexpr auto begin = dryfit_path_begin; static constexpr auto cut = dryfit_path_cut; static constexpr auto end = dryfit_path_end; };

/** A file that is written through a callable of std::string_view. It stays where it was made; without `end` it is just incomplete. */
template <class Format, class Write> class File {
public:
    template <class... Arguments> explicit File(Write write, const Arguments &...arguments) : sink(std::move(write))
    {
        sink.call(Format::begin, &state, arguments..., &Sink::write, static_cast<void *>(&sink));
    }
    File(const File &) = delete;
    File &operator=(const File &) = delete;

    /** Cuts along all moves of a source: `file.cut(dryfit_panel_moves, &box, DRYFIT_FACE_FRONT)`. */
    template <class Source, class... Arguments> void cut(Source source, const Arguments &...arguments)
    {
        sink.cut(&state, source, arguments..., Format::cut, static_cast<void *>(&state));
    }
    /** Any other function of the format: `file.call(dryfit_svg_line, DRYFIT_LINE_MARK, 0)`. */
    template <class Function, class... Arguments> void call(Function function, const Arguments &...arguments) { sink.call(function, &state, arguments...); }
    void end() { sink.call(Format::end, &state); }

private:
    using Sink = detail::Callback<Write>;
    static_assert(std::is_void_v<std::invoke_result_t<Write &, std::string_view>>, "what cannot write throws: a result would be lost");
    dryfit_file state{};
    Sink sink;
};

/** Begins a file: `auto file = dryfit::begin<dryfit::Svg>(write, width, height, title, description)`. */
template <class Format, class Write, class... Arguments> File<Format, Write> begin(Write write, const Arguments &...arguments)
{
    return File<Format, Write>(std::move(write), arguments...);
}

#if defined(DRYFIT_HOST)

namespace detail {

template <auto free_> struct Freed {
    template <class Kind> void operator()(Kind *handle) const noexcept { free_(&handle); }
};

} // namespace detail

/** Handles that free themselves. `box.get()` is what C wants. */
using Assembly = std::unique_ptr<dryfit_assembly, detail::Freed<dryfit_assembly_free>>;
using Parts = std::unique_ptr<dryfit_parts, detail::Freed<dryfit_parts_free>>;
using Report = std::unique_ptr<dryfit_report, detail::Freed<dryfit_report_free>>;
using Layout = std::unique_ptr<dryfit_layout, detail::Freed<dryfit_layout_free>>;

/** What a function that ends with (out, error) makes: `auto box = dryfit::make<dryfit::Assembly>(dryfit_assembly_of_box, &spec)`. */
template <class Handle, class Function, class... Arguments> Handle make(Function function, const Arguments &...arguments)
{
    typename Handle::pointer made = nullptr;
    call(function, arguments..., &made);
    return Handle(made);
}

#endif

/** A text of the library, by a function that ends with (out, cap, needed, error). */
template <class Function, class... Arguments> std::string text(Function function, const Arguments &...arguments)
{
    const std::vector<char> letters = all<char>(function, arguments...);
    return std::string(letters.data(), letters.size() - 1);
}

/** What a function that writes a whole file (dryfit_layout_gcode, dryfit_parts_svg, ...) hands to a callable of std::string_view. */
template <class Write, class Function, class... Arguments> void written(Write &&write, Function function, const Arguments &...arguments)
{
    detail::Callback<std::reference_wrapper<std::remove_reference_t<Write>>> callback(write);
    callback.call(function, arguments..., &decltype(callback)::write, static_cast<void *>(&callback));
}

/** Whether this header is the library's: worth asking first of all where the library is a shared one. */
inline bool fits_library() noexcept { return dryfit_abi_version() == DRYFIT_ABI_VERSION; }

} // namespace dryfit

#endif
