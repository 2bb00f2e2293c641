package book

// kinds is the table, in the order a person is shown them. Each kind is a literal of one of
// the files kind_*.go.
var kinds = []*Kind{
	&meterRead, &run, &flight,
	&sample, &screen, &overnight,
	&pulled, &compressionSet, &crankingSet,
	&clearances, &grease, &dimensions, &torqueDone,
	&timing, &points, &drops, &plugs,
	&start, &beforeTakeoff,
	&fitted, &removed, &overhaul,
	&storage, &inspection, &finding, &directive,
	&photo, &signature, &job, &order,
}
