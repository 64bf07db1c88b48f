-- expect: there is no unit 'bathtubs'
return { overflow_level = 3 * bathtubs }
