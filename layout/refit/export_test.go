package refit

// MoveSensors is moveSensors, for tests that plan whole rooms.
var MoveSensors = moveSensors
