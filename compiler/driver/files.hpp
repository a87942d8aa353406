// Reading and writing files: the only place that opens any.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace waxwright {

/// A file's text, or why it can't be read ("No such file or directory").
struct FileText {
    std::optional<std::string> text;
    std::string problem;
};

/// Reads a file; `-` is the standard input. Folders, and files over the parser's limit, are
/// problems.
FileText read_file(const std::string& path);

/// The `.candle` files of a folder and its folders, sorted by path; empty if there are none.
std::vector<std::string> candle_files(const std::string& folder);
bool is_folder(const std::string& path);
/// True unless a device, a pipe or the like is there.
bool is_plain_file(const std::string& path);

/// Whether a file has to have reached the disk before the call ends: not where there are hundreds.
enum class Durable : bool { no, yes };

/// Writes a file whole or not at all: beside the target first, then renamed over it. Returns the
/// problem, or "" when it is done. Missing folders of the path are made.
std::string write_file(const std::string& path, std::string_view text,
                       Durable durable = Durable::yes);

/// A file to be made, by its name in the folder that it is for.
struct NewFile {
    std::string name;
    std::string_view text;
};

/// Makes files in a folder, all of them or none, and never over anything that is there, be it a
/// link that leads nowhere. Missing folders of the path are made. Where something fails, what was
/// made before it is taken away again. Returns the problem, after the path it is with, or "".
std::string write_new_files(const std::string& folder, const std::vector<NewFile>& files);

/// Makes the names in a folder last, after many files were written that need not last one by one.
/// File systems that can't do so are left alone.
void sync_folder(const std::string& path);

/// Writes to standard output; the problem, or "".
std::string write_out(std::string_view text);
/// Writes a command's text to the file `out`, or to standard output where that is empty. Returns
/// the problem, after where it is, or "".
std::string write_text(const std::string& out, std::string_view text);
/// Writes to standard error; there is nobody left to tell where that fails.
void write_error(std::string_view text);

} // namespace waxwright
