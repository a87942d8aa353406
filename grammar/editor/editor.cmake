# What editors colour recipe files by: written from the compiler's tables while it is built, into
# editor/ of the build's folder, and put where editors look. Nothing of it is kept in the tree but
# the files that have no words of the language in them.
set(editor_from ${CMAKE_SOURCE_DIR}/grammar/editor)
set(editor_to ${CMAKE_BINARY_DIR}/editor)

file(GLOB editor_sources CONFIGURE_DEPENDS ${editor_from}/*.cpp)
add_executable(waxwright-editor-files ${editor_sources})
target_link_libraries(waxwright-editor-files PRIVATE waxwright-core nlohmann_json::nlohmann_json)
target_compile_definitions(waxwright-editor-files PRIVATE WAXWRIGHT_VERSION="${PROJECT_VERSION}")

file(GLOB_RECURSE editor_plain CONFIGURE_DEPENDS ${editor_from}/vim/*.vim ${editor_from}/nvim/*.lua
  ${editor_from}/vscode/*.js)
# The extension as one file too: an editor that has been started before takes no folder that was put
# beside its extensions while it was closed, but every one installs a file of this kind, a zip of a
# folder with this name. The zip has the time of its making in it.
set(editor_pack ${CMAKE_BINARY_DIR}/editor-pack)
add_custom_command(OUTPUT ${editor_to}/written
  COMMAND ${CMAKE_COMMAND} -E rm -rf ${editor_to}
  COMMAND waxwright-editor-files --into ${editor_to}
  COMMAND ${CMAKE_COMMAND} -E copy_directory ${editor_from}/vim ${editor_to}/vim
  COMMAND ${CMAKE_COMMAND} -E copy_directory ${editor_from}/nvim ${editor_to}/nvim
  COMMAND ${CMAKE_COMMAND} -E copy_directory ${editor_from}/vscode ${editor_to}/vscode
  COMMAND ${CMAKE_COMMAND} -E rm -rf ${editor_pack}
  COMMAND ${CMAKE_COMMAND} -E copy_directory ${editor_to}/vscode ${editor_pack}/extension
  COMMAND ${CMAKE_COMMAND} -E chdir ${editor_pack} ${CMAKE_COMMAND} -E tar cf
    ${editor_to}/waxwright-candle.vsix --format=zip extension
  COMMAND ${CMAKE_COMMAND} -E touch ${editor_to}/written
  DEPENDS waxwright-editor-files ${editor_plain} VERBATIM)
add_custom_target(editor-files ALL DEPENDS ${editor_to}/written)

# All of it, to copy from; then each where its editor reads it. Debian's Vim reads only /usr/share,
# its Neovim /usr/local/share as well.
install(DIRECTORY ${editor_to}/ DESTINATION share/waxwright/editor PATTERN written EXCLUDE)
install(DIRECTORY ${editor_to}/vim/ DESTINATION share/vim/vimfiles)
install(DIRECTORY ${editor_to}/vim/ DESTINATION share/nvim/site)
install(FILES ${editor_to}/nvim/waxwright.lua DESTINATION share/nvim/site/plugin)
install(DIRECTORY ${editor_to}/nvim/lua DESTINATION share/nvim/site)
install(FILES ${editor_to}/nano/candle.nanorc DESTINATION share/nano)
foreach(version 3.0 4 5)
  install(FILES ${editor_to}/gtksourceview/candle.lang
    DESTINATION share/gtksourceview-${version}/language-specs)
endforeach()
