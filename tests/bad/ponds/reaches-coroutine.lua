-- expect: global 'coroutine'
return coroutine.wrap(function() while true do end end)()
