# The subset fonts as base64 text, so that a drawing carries its own lettering and the program needs no file at run time.
foreach(font osifont b612-regular b612-bold)
  string(REPLACE "-" "_" name ${font})
  cotter_table(cotter_draw ${PROJECT_SOURCE_DIR}/fonts/${font}.woff2.b64 draw_${name}.hpp k_${name}_base64)
endforeach()
