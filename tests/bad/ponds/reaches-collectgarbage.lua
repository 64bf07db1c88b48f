-- expect: global 'collectgarbage'
collectgarbage("stop")
