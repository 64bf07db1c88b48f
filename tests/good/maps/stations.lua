return { station_column = "id" }
