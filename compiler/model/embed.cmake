# Writes OUT: a C++ source with each of MODULES (files in FOLDER) as a string.
# A text may hold nothing that ends the raw string; modules are UTF-8 and have no need to.
set(text "#include \"model/library.hpp\"\n\n")
string(APPEND text "#pragma GCC diagnostic ignored \"-Woverlength-strings\"\n\n")
string(APPEND text "namespace waxwright {\n\nnamespace {\nconstexpr LibraryModule modules[] = {\n")
foreach(module IN LISTS MODULES)
  file(READ "${FOLDER}/${module}" content)
  string(REPLACE ".candle" "" name "${module}")
  string(APPEND text "    {\"${name}\", R\"candle(${content})candle\"},\n")
endforeach()
string(APPEND text "};\n} // namespace\n\n")
string(APPEND text "std::span<const LibraryModule> library_modules() {\n    return modules;\n}\n\n")
string(APPEND text "} // namespace waxwright\n")
file(WRITE "${OUT}" "${text}")
