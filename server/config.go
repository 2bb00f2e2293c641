package main

import (
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"strings"

	"linkrod/server/cert"
)

// Config is what the flags say.
type Config struct {
	Data  string // folder of everything that must last
	Addr  string // to listen on
	Names string // what phones call the server
	TLS   string // off, files, acme, own
	Cert  string // certificate file, for files
	Key   string // its key
	Plain string // second address, without TLS, for acme and own
	Log   string // level of the log
}

// setting is one flag and its environment variable.
type setting struct {
	name  string
	value *string
	usual string
	about string
}

func (s setting) env() string { return "LINKROD_" + strings.ToUpper(s.name) }

func flags(c *Config) []setting {
	return []setting{
		{"data", &c.Data, "data", "folder of everything that must last (default ./data)"},
		{"addr", &c.Addr, "", "address to listen on (default localhost:7075; :7443 with files and own, :443 with acme)"},
		{"name", &c.Names, "", "what phones call the server: names and addresses, separated by commas"},
		{"tls", &c.TLS, "off", "off (this machine only), files (-cert, -key), acme (a public name), own (a hangar network)"},
		{"cert", &c.Cert, "", "certificate chain, PEM; taken anew when it changes"},
		{"key", &c.Key, "", "its key, PEM"},
		{"plain", &c.Plain, "", "second address without TLS: the install page of own (default :7080), the challenge of acme (default :80)"},
		{"log", &c.Log, "info", "debug, info, warn or error; the log goes to stderr"},
	}
}

// parse reads flags into c, taking what isn't there from the environment, and
// returns the arguments after them. A command other than serve has only one of
// the flags, and may add its own.
func parse(c *Config, only string, args []string, w world, own ...func(*flag.FlagSet)) ([]string, error) {
	set := flag.NewFlagSet("linkrod", flag.ContinueOnError)
	set.SetOutput(io.Discard) // said by report, in our words
	for _, s := range flags(c) {
		usual := s.usual
		if v := w.env(s.env()); v != "" {
			usual = v
		}
		if only == "" || only == s.name {
			set.StringVar(s.value, s.name, usual, s.about)
		}
	}
	for _, add := range own {
		add(set)
	}
	if err := set.Parse(args); err != nil {
		return nil, errUsage{err.Error()}
	}
	return set.Args(), nil
}

// complete checks that the flags go together and fills in what follows from
// -tls.
func (c *Config) complete() (cert.Names, error) {
	bad := func(format string, args ...any) (cert.Names, error) {
		return cert.Names{}, errUsage{fmt.Sprintf(format, args...)}
	}
	names, err := cert.ParseNames(c.Names)
	if err != nil {
		return bad("-name: %v", err)
	}
	type usual struct{ addr, plain string }
	defaults, ok := map[string]usual{
		"off":   {"localhost:7075", ""},
		"files": {":7443", ""},
		"acme":  {":443", ":80"},
		"own":   {":7443", ":7080"},
	}[c.TLS]
	switch {
	case !ok:
		return bad("-tls is %q; it can be off, files, acme or own", c.TLS)
	case c.TLS == "files" && (c.Cert == "" || c.Key == ""):
		return bad("-tls files needs both -cert and -key")
	case c.TLS != "files" && (c.Cert != "" || c.Key != ""):
		return bad("-cert and -key go with -tls files, and -tls is %s", c.TLS)
	case c.Plain != "" && defaults.plain == "":
		return bad("-plain goes with -tls own or acme, and -tls is %s", c.TLS)
	case c.Data == "":
		return bad("-data is empty; name a folder")
	}
	if c.Addr == "" {
		c.Addr = defaults.addr
	}
	if c.Plain == "" {
		c.Plain = defaults.plain
	}
	for name, addr := range map[string]string{"addr": c.Addr, "plain": c.Plain} {
		if _, _, err := net.SplitHostPort(addr); addr != "" && err != nil {
			return bad("-%s is %q; write host:port, or :port for every address of this machine", name, addr)
		}
	}
	return names, nil
}

// logger writes structured lines to out.
func (c *Config) logger(out io.Writer) (*slog.Logger, error) {
	var level slog.Level
	if err := level.UnmarshalText([]byte(c.Log)); err != nil {
		return nil, errUsage{fmt.Sprintf("-log is %q; it can be debug, info, warn or error", c.Log)}
	}
	return slog.New(slog.NewTextHandler(out, &slog.HandlerOptions{Level: level})), nil
}
