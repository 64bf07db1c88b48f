-- expect: global 'require'
return require "tarn"
