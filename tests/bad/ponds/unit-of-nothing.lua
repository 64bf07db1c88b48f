-- expect: there is no unit 'bathtubs'
return { lip = 3 * bathtubs }
