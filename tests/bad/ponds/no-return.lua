-- expect: must return a table: begin with return { and end with }
name = "A"
