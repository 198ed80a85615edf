package records

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/practice"
	"sparetone/progress/exchange"
	"sparetone/progress/store"
	"sparetone/theory"
)

// SyncRow is what came of a file of the folder, as --json prints it. One that could not be taken in is a row with its error.
type SyncRow struct {
	Part     string   `json:"part"` // file
	File     string   `json:"file"`
	Machine  string   `json:"machine"` // id of the machine that wrote it
	Host     string   `json:"host"`    // what that machine calls itself
	Whose    WhoseRow `json:"whose"`
	Answers  int      `json:"answers"`  // added
	Sessions int      `json:"sessions"` // added
	Own      bool     `json:"own"`      // this machine wrote it
	Copy     bool     `json:"copy"`     // it has another name than its machine gave it
	Stale    bool     `json:"stale"`    // what was taken in of its machine before was newer
	Joined   bool     `json:"joined"`   // it is of another progress file, and is the student's own from now on
}

// SyncedRow is what came of it all, and comes last.
type SyncedRow struct {
	Part     string `json:"part"` // all
	Folder   string `json:"folder"`
	File     string `json:"file"`     // this machine's own
	Wrote    bool   `json:"wrote"`    // it was written; else it holds all there is, or there is nothing yet
	Answers  int    `json:"answers"`  // added
	Sessions int    `json:"sessions"` // added
	Undone   int    `json:"undone"`   // imports that were taken back on another machine, and now here
	Goes     bool   `json:"goes_on"`  // the progress file was empty, and goes on from the others
}

func newSync() *cobra.Command {
	var off, asMine bool
	cmd := &cobra.Command{
		Use:   "sync [FOLDER]",
		Short: "Keep your practice on several machines alike, through a folder that something carries between them",
		Long: "Keep your practice on several machines alike. FOLDER is one that a service or a person carries between\n" +
			"them. Each machine keeps one file in it, which no other writes, and takes in those of the others; from\n" +
			"then on it does so whenever practice begins and ends, until --off. Without FOLDER it is done now.\n\n" +
			"Answers and sessions go to all machines, and so does what you were shown, what you have chosen for\n" +
			"yourself and what you have taken back with progress undo. Volume, voice, part, movement and colours stay.\n" +
			"A file that is not whole is said, and taken in once it is. Somebody else's is refused by name, as\n" +
			"progress import does; --as-mine takes in what you have practised apart.",
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) > 1:
				return command.Wrong("%s takes one folder", cmd.CommandPath())
			case off && len(args) > 0:
				return command.Wrong("--off takes no folder")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			open := command.OpenThere
			if len(args) > 0 {
				open = command.OpenStrictly // on a new machine there is none yet
			}
			file, err := open(cmd)
			if err != nil {
				return err
			}
			defer func() {
				if wrong := file.Close(); wrong != nil {
					err = errors.Join(err, command.Fault(wrong))
				}
			}()
			if off {
				return command.Fault(file.SetSyncFolder(""))
			}
			folder, err := file.SyncFolder()
			if err != nil {
				return command.Fault(err)
			}
			if len(args) > 0 {
				if folder, err = filepath.Abs(args[0]); err != nil {
					return command.Fault(err)
				}
			}
			if folder == "" {
				return command.Wrong("%s needs a folder the first time", cmd.CommandPath())
			}
			done, err := file.Sync(folder, syncHow(asMine))
			if errors.Is(err, exchange.ErrSeveral) {
				return command.OrStatus(err, command.InputWrong)
			}
			if err == nil && len(args) > 0 {
				err = file.SetSyncFolder(folder)
			}
			if err != nil {
				return command.Fault(err)
			}
			return showSynced(command.NewOutput(cmd), folder, done)
		},
	}
	cmd.Flags().BoolVar(&off, "off", false, "no longer; what lies in the folder stays there")
	cmd.Flags().BoolVar(&asMine, "as-mine", false, "take in what is of another progress file as your own, now and from now on")
	cmd.MarkFlagsMutuallyExclusive("off", "as-mine")
	command.AddJSON(cmd)
	return cmd
}

// syncHow is how files are kept alike.
func syncHow(asMine bool) store.SyncHow {
	host, _ := os.Hostname() // else it has no name
	return store.SyncHow{Host: host, Carry: practice.Carried, Other: asMine}
}

// showSynced says what came of each file, and of it all.
func showSynced(o *command.Output, folder string, done store.Synced) error {
	bad := false
	for _, u := range done.Unread {
		bad = true
		if err := o.Refuse(u.Name, u.Err); err != nil {
			return err
		}
	}
	all := SyncedRow{Part: "all", Folder: folder, File: done.Name, Wrote: done.Wrote, Undone: done.TakenBack, Goes: done.WentOn}
	for _, f := range done.Files {
		if f.Err != nil {
			bad = true
			if err := o.Refuse(f.File.Name, advisedOfAnother(f.Err)); err != nil {
				return err
			}
			continue
		}
		all.Answers += f.Answers
		all.Sessions += f.Sessions
		if !o.AsJSON {
			o.Printf("%s: %s\n", theory.Clean(f.File.Name), theory.Clean(becameOf(f)))
			continue
		}
		id, host := f.File.Machine()
		o.Object(SyncRow{"file", f.File.Name, id, host, WhoseRow(f.File.Whose()), f.Answers, f.Sessions, f.Own, f.Copy, f.Stale, f.Joined})
	}
	if o.AsJSON {
		o.Object(all)
	} else {
		showSum(o, all)
	}
	if err := o.Done(); err != nil {
		return err
	}
	if bad {
		return command.ErrReported
	}
	return nil
}

// showSum says what came of it all.
func showSum(o *command.Output, all SyncedRow) {
	if all.Goes {
		o.Printf("Your progress file was empty, and goes on from these.\n")
	}
	if all.Undone > 0 {
		o.Printf("%s\n", sayUndone(all.Undone))
	}
	o.Printf("%s and %s added", command.Count(all.Answers, "answer"), command.Count(all.Sessions, "session"))
	if all.Wrote {
		o.Printf("; this machine's file is %s.\n", theory.Clean(filepath.Join(all.Folder, all.File)))
	} else {
		o.Printf("; this machine has nothing new to tell.\n")
	}
}

// becameOf says what became of a file that was taken in.
func becameOf(f exchange.FileTaken) string {
	id, host := f.File.Machine()
	if host == "" {
		host = id
	}
	says := "of " + host
	switch {
	case f.Own && !f.Copy && !f.Stale:
		return "this machine's own"
	case f.Copy:
		says = "a renamed copy of what " + host + " wrote; it may be deleted"
	case f.Stale:
		says = "older than what came from " + host + " before"
	}
	if f.Joined {
		says += ", yours from now on, which progress undo takes back"
	}
	return fmt.Sprintf("%s: %s and %s added", says, command.Count(f.Answers, "answer"), command.Count(f.Sessions, "session"))
}

// sayUndone says that imports went.
func sayUndone(n int) string {
	if n == 1 {
		return "An import that was taken back on another machine is taken back here too."
	}
	return fmt.Sprintf("%d imports that were taken back on another machine are taken back here too.", n)
}

// advisedOfAnother adds to the refusal of somebody else's practice what can be done about it.
func advisedOfAnother(err error) error {
	if errors.As(err, new(*exchange.AnothersFile)) {
		return fmt.Errorf("%w; --as-mine takes it in as yours", err)
	}
	return err
}

// KeepAlike does what sync does, where a folder is set, at the beginning or the end of practice. It says in a line what
// somebody has to know of it; the error is of a folder that could not be used.
func KeepAlike(file *store.File) (says string, err error) {
	folder, err := file.SyncFolder()
	if err != nil || folder == "" || file.Path() == "" {
		return "", err
	}
	done, err := file.Sync(folder, syncHow(false))
	if err != nil {
		return "", fmt.Errorf("not kept alike with your other machines: %w", err)
	}
	switch {
	case len(done.Unread) > 0:
		u := done.Unread[0]
		return fmt.Sprintf("%s: %v.", filepath.Join(folder, u.Name), u.Err), nil
	case done.TakenBack > 0:
		return sayUndone(done.TakenBack), nil
	}
	return "", nil
}

// KeepAlikeAtStart is KeepAlike at the beginning of practice, which goes on whatever comes of it.
func KeepAlikeAtStart(file *store.File) string {
	says, err := KeepAlike(file)
	if err != nil {
		return "Practice goes on, but is " + theory.Clean(err.Error()) + "."
	}
	return theory.Clean(says)
}
