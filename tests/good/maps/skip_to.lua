return { skip = "DATA" }
