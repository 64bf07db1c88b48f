return { delimiter = "|" }
