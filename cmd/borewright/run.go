package main

import (
	"context"
	"runtime/debug"

	"github.com/urfave/cli/v3"
)

// run does in w what args ask for, the program's own name first, and returns
// the exit code: 0 done, 1 failed, 2 used wrongly, 3 done but something measured
// is outside its limits. An error, and a fault of the program itself, becomes
// words on w.Err.
func run(args []string, w World) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			code = reportFault(w.Err, fault, debug.Stack())
		}
	}()
	program := root(w)
	program.Commands = asked(program.Commands, args)
	return report(w.Err, program.Run(withWords(context.Background(), args), args))
}

// asked returns the command that the first argument names alone, and all where it
// names none or is help: the library looks through every option of every command
// there is, which took 0.2 of the 3 ms of "borewright version".
func asked(all []*cli.Command, args []string) []*cli.Command {
	if len(args) < 2 || args[1] == "help" {
		return all
	}
	for _, c := range all {
		if c.Name == args[1] {
			return []*cli.Command{c}
		}
	}
	return all
}

// root returns the command line: the program's own options and every command.
func root(w World) *cli.Command {
	program := &cli.Command{
		Name:        "borewright",
		Usage:       "measuring station for the engine builder's bench",
		UsageText:   "borewright [options] [command]",
		Description: rootDescription,
		Flags:       append([]cli.Flag{databaseFlag(), versionFlag()}, looksFlags()...),
		Commands: []*cli.Command{
			demoCommand(w),
			listCommand(w),
			assessCommand(w),
			sheetCommand(w),
			exportCommand(w),
			importCommand(w),
			studyCommand(w),
			backupCommand(w),
			verifyCommand(w),
			salvageCommand(w),
			verifyInside(w),
			schemaCommand(w),
			versionCommand(w),
			helpCommand(),
		},
		Action:    func(ctx context.Context, cmd *cli.Command) error { return openStation(ctx, cmd, w) },
		Reader:    w.In,
		Writer:    w.Out,
		ErrWriter: w.Err,

		ExitErrHandler:                  func(context.Context, *cli.Command, error) {},
		EnableShellCompletion:           true,
		ConfigureShellCompletionCommand: describeCompletion,
	}
	settle(program)
	return program
}

const rootDescription = `Takes readings of bores, journals and bearings as you key them, works out
size, form and running clearance against the limits you entered, and keeps
them. It advises; it does not certify: the part maker's data, local codes
and a qualified person govern.`

// settle gives cmd and all its commands our help texts and our words for wrong
// use.
func settle(cmd *cli.Command) {
	cmd.HideHelpCommand = true
	cmd.OnUsageError = func(_ context.Context, cmd *cli.Command, err error, _ bool) error {
		return usageWords(cmd.FullName(), err)
	}
	cmd.CustomRootCommandHelpTemplate = helpTemplate
	cmd.CustomHelpTemplate = helpTemplate
	for _, sub := range cmd.Commands {
		settle(sub)
	}
}
