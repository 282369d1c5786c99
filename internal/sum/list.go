package sum

// list holds every sum; within a group in the order in which it is listed.
var list = []Sum{
	springPressure, springLoad, springRate, ride, bumpPeak, travel, mountLoad, corners, people,
	isItALeak, coldDrop, gaugeTomorrow, tankEnergy, fillTime, emptyTime, flow, flowChain, airAtHeight,
	tyreSize, tyreSwap,
	sure, flatPlane, convert,
}
