-- expect: there is no unit 'collectgarbage'
collectgarbage("stop")
