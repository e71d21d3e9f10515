"""The app: colours, what can be done anywhere, faults survived, and an orderly end whatever ends it."""

from __future__ import annotations

import asyncio
import os
import signal
import traceback
from collections.abc import Sequence
from pathlib import Path
from time import monotonic
from typing import ClassVar, Final

from textual import events
from textual.app import App
from textual.binding import BindingType
from textual.filter import LineFilter
from textual.message import Message
from textual.screen import ModalScreen
from textual.worker import WorkerFailed

from wizard.interview.job_files import OpenJob
from wizard.interview.session import Session
from wizard.project.crash_report import fault_words, keep_report
from wizard.screens.actions import Context, bindings
from wizard.screens.dialog_host import INPUT, LEAST_COLUMNS, LEAST_ROWS, DialogHost, FullScreen, InputGate
from wizard.screens.dialogs.base_dialogs import ConfirmDialog, MessageDialog
from wizard.screens.job_screen import JobScreen
from wizard.screens.keymap import Keys, mistakes_told
from wizard.screens.screen_text import ConsoleSigns, keep_lengths_whole
from wizard.screens.themes import PLAIN, THEMES, first_theme, other_theme

AGAIN: Final = 10.0
"""Seconds within which a second fault in the same place shows that the screen cannot be used."""

ENDING: Final = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
"""Signals to end: the terminal is restored first."""

REBUILT: Final = "The screen was rebuilt"


class SkirtApp(App[int]):
    """Opens on a folder's projects, or on one file of it."""

    TITLE = "railskirt"
    CSS_PATH = [f"styles/{each}.tcss" for each in ("screens", "job", "pages", "cloth", "large", "dialogs")]  # noqa: RUF012
    BINDINGS: ClassVar[list[BindingType]] = [*bindings("anywhere")]
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-tiny-across"), (40, "-narrow"), (76, "-usual"), (110, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-tiny-down"), (12, "-low"), (22, "-fair"), (28, "-high")]  # noqa: RUF012

    def __init__(
        self, folder: Path, file: Path | None = None, keys: Keys | None = None, session: Session | None = None
    ) -> None:
        self.signs = [ConsoleSigns()] if os.environ.get("TERM") == "linux" else []
        keep_lengths_whole()
        theme = first_theme(os.environ)
        super().__init__(ansi_color=True if theme == PLAIN else None)
        self.folder, self.file, self.session = folder, file, session
        self.keys = keys or Keys()
        self.actions = self.keys.actions
        self.set_keymap(self.keys.changed)
        self.parting: list[str] = []
        """What is said on the shell's own screen once this one is gone."""
        self.faults: dict[str, float] = {}
        """Kind and place of each fault that was survived -> when that was, in seconds."""
        self.fault: BaseException | None = None
        """What ended the screens without being asked to."""
        self.dialogs = DialogHost(self)
        self.input = InputGate(self, self.dialogs)
        for each in THEMES:
            self.register_theme(each)
        # As it is made, not by the usual way, which reads all style sheets a second time.
        self.set_reactive(SkirtApp.theme, theme)
        self.stylesheet.set_variables(self.get_css_variables())
        self.set_class(self.current_theme.dark, "-dark-mode")
        self.set_class(not self.current_theme.dark, "-light-mode")

    def on_mount(self) -> None:
        """The list, or the job where a file was named."""
        loop = asyncio.get_running_loop()
        for each in ENDING:
            loop.add_signal_handler(each, self._end, 128 + each)
        if self.file is None:
            self._list()
        else:
            self._open(self.file)
        if self.keys.mistakes:
            self.dialogs.open(MessageDialog("Your keys", mistakes_told(self.keys)))

    @property
    def _job(self) -> JobScreen | None:
        """The screen of the open job, under whatever dialogs there are."""
        return next((each for each in self.dialogs.unanswered if isinstance(each, JobScreen)), None)

    @property
    def alone(self) -> bool:
        """True on a browser's page that shows one project: there is no list there, and no other file."""
        return self.is_web and self.file is not None

    def _list(self, _: object = None) -> None:
        if self.alone:
            self._end(0)
            return
        from wizard.screens.list_screen import ListScreen

        self.dialogs.open(ListScreen(self.folder))

    def _open(self, file: Path) -> None:
        """Go on with the project that was named; the list comes after it, or where it cannot be read."""
        from wizard.screens.list_screen import cannot_be_read, resume

        job = OpenJob(self.session, file) if self.session else resume(file)
        if isinstance(job, str):
            if not self.alone:
                self._list()
            self.dialogs.open(MessageDialog(cannot_be_read(file), job), self._list if self.alone else None)
        else:
            self.dialogs.open(JobScreen(job.session, job.path), self._list)

    def get_line_filters(self) -> Sequence[LineFilter]:
        """On a Linux console, the signs its font has."""
        return [*super().get_line_filters(), *self.signs]

    def action_menu(self) -> None:
        """List everything that can be done."""
        if not isinstance(self.screen, ModalScreen):
            from wizard.screens.dialogs.search_dialog import menu_dialog

            job = self.screen if isinstance(self.screen, JobScreen) else None
            here: tuple[Context, ...] = ("roll",) if job is not None and job.job.view == "roll" else ()
            dialog = menu_dialog("job" if job else "list", *here, table=self.actions)
            self.dialogs.open(dialog, lambda do: self.call_later(self.screen.run_action, do) if do else None)

    def action_change_light(self) -> None:
        """Light for dark, dark for light."""
        self.theme = other_theme(self.theme)

    def action_help(self) -> None:
        """Help for what is in hand."""
        if isinstance(self.screen, MessageDialog):
            return
        job = self._job
        focus = self.screen.focused.id if self.screen.focused else None
        question = job.pages.question if job is not None and self.screen is job and job.job.view == "page" else None
        from wizard.screens.help_text import help_words

        metric = job is not None and job.session.project.is_metric
        words = help_words(question, "job" if job else "list", self.actions, focus, metric=metric)
        self.dialogs.open(MessageDialog("Help", words))

    def action_leave(self) -> None:
        """Ask once, saying where everything is; with no job open there is nothing to ask about."""
        if isinstance(self.screen, ConfirmDialog):
            return
        if self._job is None:
            self._end(0)
        else:
            ask = ConfirmDialog("Leave?", self._job.leaving(), "Leave", "Stay")
            self.dialogs.open(ask, lambda leave: self._end(0) if leave else None)

    async def on_event(self, event: events.Event) -> None:
        """What is typed and clicked waits while something is under way; what cannot be seen is not acted on."""
        if not self.input.holds(event) and not self._unseen(event):
            if isinstance(event, events.Key):
                # What was said in passing goes with the next key; what is said once stays its time.
                for each in [each for each in self._notifications if each.severity == "information"]:
                    self._unnotify(each)
            await super().on_event(event)

    def _unseen(self, event: events.Event) -> bool:
        """True for what is typed, clicked or pasted behind the sign that the window is too small, where leaving goes
        on, and for what comes when no screen is left."""
        if not isinstance(event, INPUT):
            return False
        if not self.screen_stack:
            return True
        across, down = self.size
        covered = isinstance(self.screen, FullScreen) and (across < LEAST_COLUMNS or down < LEAST_ROWS)
        bound = self.active_bindings.get(event.key) if isinstance(event, events.Key) else None
        return covered and not (bound and bound.binding.action == "app.leave")

    async def _dispatch_message(self, message: Message) -> None:
        """A fault in a handler of the app's own must not end the app's loop."""
        try:
            await super()._dispatch_message(message)
        except Exception as fault:
            self._handle_exception(fault)

    def _handle_exception(self, error: Exception) -> None:
        """In place of the toolkit's page of code: say it in a sentence and go on, or leave with it for the shell."""
        # What came out of a worker is the fault itself.
        fault = error.error if isinstance(error, WorkerFailed) else error
        if self._exit or self.fault:
            return
        # What still waits was meant for the screen that is gone.
        self.input.clear()
        place, now = f"{type(fault)} {traceback.extract_tb(fault.__traceback__)[-1:]}", monotonic()
        if now - self.faults.get(place, -AGAIN) >= AGAIN:
            self.faults[place] = now
            self._begin_anew(fault_words(fault, keep_report(fault)))
        else:
            self.fault = fault
            self.dialogs.changes.stop()
            self._close_messages_no_wait()

    def _begin_anew(self, said: str) -> None:
        """Build the screen from the session, whatever became of the one that was there."""
        self.parting.append(f"railskirt: {said}")
        job = self._job
        self.dialogs.close_all()
        if job is None:
            self._list()
        else:
            self.dialogs.open(JobScreen(job.session, job.path, job.timing), self._list)
        self.dialogs.open(MessageDialog(REBUILT, said))

    def _end(self, status: int) -> None:
        if self._job is not None:
            self.parting.append(self._job.close_job())
        self.exit(status, return_code=status)
