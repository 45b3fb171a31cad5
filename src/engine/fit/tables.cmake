# Tables of standards, built into the engine.
foreach(table iso286_grades iso286_deviations iso492_normal iso965_external iso965_internal iso262_coarse elastic)
  cotter_table(cotter_engine_fit ${PROJECT_SOURCE_DIR}/catalog/standards/${table}.csv ${table}.hpp k_${table})
endforeach()
