"""Answers to the window's questions, given in place of a person at the dialogs."""

from pathlib import Path

from app.questions import Questions, Unsaved


class Answers(Questions):
    """What each dialog is answered with, and what was said in message boxes."""

    def __init__(self) -> None:
        self.path: Path | None = None
        self.unsaved_answer: Unsaved = "cancel"
        self.yes = False
        self.from_stock = False
        self.asked: list[str] = []
        self.said: list[str] = []

    def room_to_open(self, _folder: Path) -> Path | None:
        return self.path

    def room_to_save(self, proposal: Path) -> Path | None:
        self.asked.append(proposal.name)
        return self.path

    def file_to_export(self, _proposal: Path) -> Path | None:
        return self.path

    def pack(self, _folder: Path, *, can_lay: bool, lays: bool) -> tuple[Path, bool] | None:
        self.asked.append(f"pack{', can lay' if can_lay else ''}{', lays' if lays else ''}")
        return (self.path, self.from_stock) if self.path else None

    def unsaved(self, name: str) -> Unsaved:
        self.asked.append(f"unsaved {name}")
        return self.unsaved_answer

    def confirm(self, text: str, _yes: str) -> bool:
        self.asked.append(text)
        return self.yes

    def recover(self, name: str, *, file_is_newer: bool) -> bool:
        self.asked.append(f"recover {'older ' if file_is_newer else ''}{name}")
        return self.yes

    def tell(self, _title: str, text: str) -> None:
        self.said.append(text)

    def fault(self, _title: str, text: str) -> None:
        self.said.append(text)
