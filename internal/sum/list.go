package sum

// list holds every sum; within a group in the order in which it is listed.
var list = []Sum{
	springPressure, springLoad, springRate, ride, bumpPeak, travel, mountLoad,
	coldDrop, gaugeTomorrow, tankEnergy, fillTime, emptyTime, flow, flowChain, airAtHeight,
	convert,
}
