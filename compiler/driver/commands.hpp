// The commands. Each returns its exit status: 0 done, 1 an error finding (of compare also: two
// versions that are different), 2 a wrong call or a file that can't be read or written.
#pragma once

#include "driver/options.hpp"
#include "model/load.hpp"
#include "source/source.hpp"

namespace waxwright {

#define COMMAND(identifier, word, run, about) int run(const Options& options);
#include "driver/commands.def"
#undef COMMAND

/// Reads the command line and runs what it asks for.
int run(int count, const char* const* words);

/// How a used file is read: from the disk. With `beside` a file that isn't there, as seen from
/// `file`, is looked for in that folder; of what comes from the standard input only there.
ReadFile read_from_disk(const Options& options);
/// How files are read that lie within these folders, or below.
ReadFile read_within_folders(const std::vector<std::string>& folders);
/// Adds the named file to the run; tells on standard error and returns false where it can't be
/// read.
bool add_root(Sources& sources, const std::string& path);
/// The folder that the files a file uses are seen from; "." of the standard input.
std::string folder_of(const std::string& file);
/// True where findings may be coloured: a terminal, and NO_COLOR unset or empty.
bool may_colour(int descriptor);

} // namespace waxwright
