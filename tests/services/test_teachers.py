"""Teachers: let in once by a link, then by a passphrase; tries that fail are counted."""

from datetime import timedelta

import pytest

from app.domain.errors import AlreadyHere, InvalidEntry, NotFound, SignInNeeded, TooMany, UnknownCode
from app.domain.limits import PASSWORD_LEAST, WRONG_PASSWORDS_PER_10_MIN
from app.services import teachers
from app.services.teachers import SignedIn
from app.store.database import Database
from tests import make
from tests.make import MORNING, PASSWORD

OTHER = "another four score"


def sign_in(database: Database, password: str, *, name: str = "moss", minutes: float = 0) -> SignedIn:
    """The teacher, or a refusal."""
    return teachers.sign_in(
        database, name, password, from_hash=teachers.token_hash(name), at=MORNING + timedelta(minutes=minutes)
    )


def is_still_in(database: Database, teacher: SignedIn) -> bool:
    """Whether that sign-in still holds."""
    return teachers.still_in(database, teacher.teacher_id, teacher.stamp) == teacher


class TestFirstLink:
    def test_it_lets_in_once(self, database: Database) -> None:
        token = teachers.add_teacher(database, "moss", password=None, at=MORNING)
        assert token is not None
        assert teachers.whose_first_link(database, token) == "moss"
        teacher = teachers.set_first_password(database, token, PASSWORD, at=MORNING)
        assert is_still_in(database, teacher)
        for verb in (
            lambda: teachers.whose_first_link(database, token),
            lambda: teachers.set_first_password(database, token, OTHER, at=MORNING),
        ):
            with pytest.raises(UnknownCode):
                verb()
        assert sign_in(database, PASSWORD) == teacher

    def test_a_short_passphrase_leaves_the_link_open(self, database: Database) -> None:
        token = teachers.add_teacher(database, "moss", password=None, at=MORNING) or ""
        with pytest.raises(InvalidEntry):
            teachers.set_first_password(database, token, "x" * (PASSWORD_LEAST - 1), at=MORNING)
        assert teachers.whose_first_link(database, token) == "moss"

    def test_each_start_makes_a_fresh_one_until_a_passphrase_is_set(self, database: Database) -> None:
        first = teachers.first_link(database, at=MORNING)
        second = teachers.first_link(database, at=MORNING)
        assert first
        assert second
        assert first != second
        with pytest.raises(UnknownCode):
            teachers.whose_first_link(database, first)
        teachers.set_first_password(database, second, PASSWORD, at=MORNING)
        assert teachers.first_link(database, at=MORNING) is None

    def test_it_is_kept_as_a_hash_only(self, database: Database) -> None:
        token = teachers.add_teacher(database, "moss", password=None, at=MORNING)
        with database.engine.connect() as connection:
            assert str(token) not in repr(connection.exec_driver_sql("SELECT * FROM teacher").all())


class TestSigningIn:
    @pytest.mark.parametrize(
        ("name", "password"), [("moss", OTHER), ("moss", ""), ("fern", PASSWORD), ("", ""), ("m" * 500, "p" * 10_000)]
    )
    def test_what_does_not_fit_is_refused_alike(self, database: Database, name: str, password: str) -> None:
        make.make_teacher(database, password=PASSWORD)
        with pytest.raises(SignInNeeded) as refused:
            sign_in(database, password, name=name)
        assert "don't fit together" in refused.value.sentence

    def test_before_a_passphrase_is_set_nothing_fits(self, database: Database) -> None:
        make.make_teacher(database)
        with pytest.raises(SignInNeeded):
            sign_in(database, "")

    def test_too_many_tries_for_one_name_have_to_wait(self, database: Database) -> None:
        """Ten wrong ones in ten minutes, by contract.md 10; then even the right one waits."""
        make.make_teacher(database, password=PASSWORD)
        for _ in range(WRONG_PASSWORDS_PER_10_MIN):
            with pytest.raises(SignInNeeded):
                sign_in(database, OTHER)
        with pytest.raises(TooMany) as refused:
            sign_in(database, PASSWORD, minutes=9)
        assert refused.value.retry_after_s > 0
        assert sign_in(database, PASSWORD, minutes=10.1).sign_in_name == "moss"

    def test_tries_elsewhere_do_not_count(self, database: Database) -> None:
        make.make_teacher(database, password=PASSWORD)
        for _ in range(WRONG_PASSWORDS_PER_10_MIN):
            teachers.note_failure(database, teachers.PASSWORDS, "elsewhere", at=MORNING)
        assert sign_in(database, PASSWORD)

    def test_old_tries_are_forgotten(self, database: Database) -> None:
        teachers.note_failure(database, teachers.CODES, "here", at=MORNING)
        teachers.note_failure(database, teachers.CODES, "here", at=MORNING + timedelta(hours=1, seconds=1))
        with database.engine.connect() as connection:
            assert connection.exec_driver_sql("SELECT count(*) FROM failed_try").scalar() == 1


class TestChanging:
    def test_a_new_passphrase_ends_every_other_sign_in(self, database: Database) -> None:
        before = make.make_teacher(database, password=PASSWORD)
        after = teachers.change_password(database, before.teacher_id, old=PASSWORD, new=OTHER, at=MORNING)
        assert (is_still_in(database, before), is_still_in(database, after)) == (False, True)

    def test_the_old_one_is_asked_for(self, database: Database) -> None:
        teacher = make.make_teacher(database, password=PASSWORD)
        with pytest.raises(InvalidEntry) as refused:
            teachers.change_password(database, teacher.teacher_id, old=OTHER, new=OTHER, at=MORNING)
        assert [fault.field for fault in refused.value.faults] == ["old_password"]
        assert is_still_in(database, teacher)

    def test_a_reset_ends_passphrase_and_sign_ins(self, database: Database) -> None:
        teacher = make.make_teacher(database, password=PASSWORD)
        token = teachers.reset_teacher(database, "moss", password=None, at=MORNING)
        assert token
        assert not is_still_in(database, teacher)
        with pytest.raises(SignInNeeded):
            sign_in(database, PASSWORD)

    def test_nobody_unknown_is_reset(self, database: Database) -> None:
        with pytest.raises(NotFound):
            teachers.reset_teacher(database, "fern", password=None, at=MORNING)


class TestNames:
    def test_a_name_is_given_once(self, database: Database) -> None:
        make.make_teacher(database)
        with pytest.raises(AlreadyHere):
            teachers.add_teacher(database, "moss", password=None, at=MORNING)

    @pytest.mark.parametrize("name", ["", "m" * 41, "a\x00b", "line\nbreak"])
    def test_a_name_can_be_shown(self, database: Database, name: str) -> None:
        with pytest.raises(InvalidEntry):
            teachers.add_teacher(database, name, password=None, at=MORNING)
