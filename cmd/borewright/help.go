package main

import (
	"context"
	"io"

	"github.com/urfave/cli/v3"
)

// helpTemplate is the help text of the program and of each command.
const helpTemplate = `{{.FullName}}: {{.Usage}}

Use:
   {{if .UsageText}}{{.UsageText}}{{else}}{{.FullName}}{{if .VisibleFlags}} [options]{{end}}{{if .ArgsUsage}} {{.ArgsUsage}}{{end}}{{end}}
{{- if .Description}}

{{.Description}}
{{- end}}
{{- if .VisibleCommands}}

Commands:{{template "visibleCommandTemplate" .}}
{{- end}}
{{- if .VisibleFlags}}

Options:{{template "visibleFlagTemplate" .}}
{{- end}}
`

// helpCommand is "borewright help [COMMAND]".
func helpCommand() *cli.Command {
	return &cli.Command{
		Name:      "help",
		Usage:     "tell what a command does",
		ArgsUsage: "[COMMAND]",
		Action: func(ctx context.Context, cmd *cli.Command) error {
			name := cmd.Args().First()
			switch program := cmd.Root(); {
			case name == "":
				return cli.ShowRootCommandHelp(program)
			case program.Command(name) == nil:
				return usagef("there is no command %q; %q lists them", name, "borewright help")
			default:
				return cli.ShowCommandHelp(ctx, program, name)
			}
		},
	}
}

// describeCompletion puts the words of the completion command in ours.
func describeCompletion(cmd *cli.Command) {
	cmd.Hidden = false
	cmd.Usage = "print a script that completes commands in your shell"
	cmd.ArgsUsage = "bash|zsh|fish|pwsh"
	cmd.Description = `Have your shell read the script when it starts, for instance
   bash   source <(borewright completion bash)
   zsh    source <(borewright completion zsh)
   fish   borewright completion fish > ~/.config/fish/completions/borewright.fish
   pwsh   save it as borewright.ps1 and run that file`
	cmd.Action = func(_ context.Context, cmd *cli.Command) error {
		return usagef("name one shell: %s", "bash, zsh, fish or pwsh")
	}
	for _, shell := range cmd.Commands {
		shell.Usage = "print the script for " + shell.Name
		if shell.Name == "fish" {
			shell.Action = andFiles(shell.Action)
		}
	}
	settle(cmd)
}

// fishFiles has fish offer files where nothing else is offered: its script
// offers none of its own accord.
const fishFiles = `
complete -c borewright -n '__fish_seen_subcommand_from assess import study' -F
complete -c borewright -n '__fish_seen_subcommand_from export' -s o -l output -r -F
complete -c borewright -l db -r -F
`

// andFiles returns the action that prints the script for fish with fishFiles.
func andFiles(script cli.ActionFunc) cli.ActionFunc {
	return func(ctx context.Context, cmd *cli.Command) error {
		if err := script(ctx, cmd); err != nil {
			return err
		}
		_, err := io.WriteString(cmd.Root().Writer, fishFiles)
		return err
	}
}
