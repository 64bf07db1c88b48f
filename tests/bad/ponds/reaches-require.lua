-- expect: there is no unit 'require'
return require "tarn"
