// Package store keeps everything the server knows, in one bbolt file.
//
// Open makes or opens it; [Memory] is the same without a file, for tests. The
// packages that use a store declare the part they need as an interface of
// their own; [DB] and [Memory] satisfy all of them and pass one conformance
// suite, package storetest:
//
//	Ledger   OpenBook(ctx, book, account) (Role, error)       make a book of one's own, or find it so
//	         Append(ctx, Push) (Taken, error)                 one batch of one device, all in one transaction
//	         Read(ctx, book, account, after, limit) (Page, error)
//	         Role(ctx, book, account) (Role, error)           NotFound when it isn't theirs
//	         Books(ctx, account) ([]Shelf, error)             with role, head, chain
//
//	People   SetUp(ctx, token Hash, now ms, Shop, Account, Device) error   once: token fits and is in time, nobody there yet
//	         Shop(ctx) (Shop, error)                          NotFound before set-up
//	         SetSetupToken(ctx, token Hash, expires ms) error Conflict once set up
//	         PutAccount, Account, AccountByName, CountAccounts
//	         PutDevice, Device, Devices(account)
//	         PutSession, Session, UpdateSession(ctx, id, func(*Session) error)
//	         PutPairing, TakePairing(ctx, code, now)
//
// Interface auth.Store (server/auth/store.go) says exactly what People must do.
//
// Every method takes a context and returns faults (package fault) where a
// caller can do something about it: NotFound, Conflict, Refused, Busy (the
// disk is full: nothing was taken, reading goes on). Whoever gets no error
// from a method that writes may tell the world: it is on disk.
package store
