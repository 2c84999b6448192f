' REWORK.STICKS once more, as a macro function: what the C++ one is measured against.
Function Whole(value As Double, low As Double) As Double
    Dim nearest As Double
    nearest = Int(value + 0.5)
    If Abs(value - nearest) > 1E-9 Or nearest < low Or nearest > 10000000 Then Error 5
    Whole = nearest
End Function

Function BasicSticks(grafts As Double, budsPerGraft As Double, budsPerStick As Double, Optional spare As Variant) As Double
    Dim share As Double, scions As Double
    If Not IsMissing(spare) Then share = spare
    If share < 0 Or share > 2 Then Error 5
    scions = Int(Whole(budsPerStick, 1) / Whole(budsPerGraft, 1))
    If scions < 1 Then Error 5
    BasicSticks = -Int(-(Whole(grafts, 0) * (1 + share) / scions - 1E-9))
End Function
