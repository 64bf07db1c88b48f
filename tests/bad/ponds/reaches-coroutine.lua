-- expect: there is no unit 'coroutine'
return coroutine.wrap(function() while true do end end)()
