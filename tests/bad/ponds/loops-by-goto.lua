-- expect: runs too long for a description
::again::
goto again
