"""first tables."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "failed_try",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("what", sa.String(length=24), nullable=False),
        sa.Column("from_hash", sa.String(length=64), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_failed_try")),
    )
    with op.batch_alter_table("failed_try", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_failed_try_from_hash"), ["from_hash"], unique=False)

    op.create_table(
        "teacher",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("sign_in_name", sa.String(length=40), nullable=False),
        sa.Column("password_hash", sa.String(length=255), nullable=True),
        sa.Column("first_hash", sa.String(length=64), nullable=True),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("password_made_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("off_at", sa.DateTime(timezone=True), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_teacher")),
        sa.UniqueConstraint("sign_in_name", name=op.f("uq_teacher_sign_in_name")),
    )
    op.create_table(
        "lesson",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("teacher_id", sa.String(length=36), nullable=False),
        sa.Column("title", sa.String(length=120), nullable=False),
        sa.Column("question", sa.String(length=300), nullable=False),
        sa.Column("year_band", sa.String(length=20), nullable=True),
        sa.Column("planned_on", sa.Date(), nullable=True),
        sa.Column("depth", sa.String(length=24), nullable=False),
        sa.Column("stage", sa.String(length=24), nullable=False),
        sa.Column("lesson_key", sa.String(length=6), nullable=False),
        sa.Column("front_code", sa.String(length=22), nullable=False),
        sa.Column("gravity_m_per_s2", sa.Double(), nullable=False),
        sa.Column("gravity_from", sa.String(length=40), nullable=True),
        sa.Column("wait_s", sa.Integer(), nullable=False),
        sa.Column("later_wait_s", sa.Integer(), nullable=False),
        sa.Column("scale_division_mm", sa.Double(), nullable=False),
        sa.Column("judgement_mm", sa.Double(), nullable=False),
        sa.Column("printed_mass_tolerance_percent", sa.Double(), nullable=False),
        sa.Column("offset_strain_percent", sa.Double(), nullable=False),
        sa.Column("return_after_steps", sa.String(length=60), nullable=False),
        sa.Column("own_graph", sa.Boolean(), nullable=False),
        sa.Column("free_text", sa.Boolean(), nullable=False),
        sa.Column("graph_open", sa.Boolean(), nullable=False),
        sa.Column("front_view", sa.String(length=24), nullable=False),
        sa.Column("front_bench_id", sa.String(length=36), nullable=True),
        sa.Column("countdown_to", sa.DateTime(timezone=True), nullable=True),
        sa.Column("paused_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("masses_down_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("over_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("shelved_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("own", sa.Boolean(), nullable=False),
        sa.Column("keep_until", sa.Date(), nullable=True),
        sa.Column("deleted_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("slot_min", sa.Integer(), nullable=True),
        sa.Column("allocation_seed", sa.Integer(), nullable=True),
        sa.Column("planning", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("notes", sa.String(length=4000), nullable=False),
        sa.Column("copied_from", sa.String(length=36), nullable=True),
        sa.Column("head", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["teacher_id"], ["teacher.id"], name=op.f("fk_lesson_teacher_id_teacher")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lesson")),
        sa.UniqueConstraint("front_code", name=op.f("uq_lesson_front_code")),
        sa.UniqueConstraint("lesson_key", name=op.f("uq_lesson_lesson_key")),
    )
    with op.batch_alter_table("lesson", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_lesson_teacher_id"), ["teacher_id"], unique=False)

    op.create_table(
        "change",
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("n", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("bench_id", sa.String(length=36), nullable=True),
        sa.Column("about_table", sa.String(length=24), nullable=False),
        sa.Column("about_id", sa.String(length=36), nullable=False),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("before", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("after", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_change_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("lesson_id", "n", name=op.f("pk_change")),
    )
    op.create_table(
        "material",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("form", sa.String(length=24), nullable=True),
        sa.Column("flat_width_mm", sa.Double(), nullable=True),
        sa.Column("height_mm", sa.Double(), nullable=True),
        sa.Column("gusset_mm", sa.Double(), nullable=True),
        sa.Column("seams", sa.String(length=24), nullable=True),
        sa.Column("woven", sa.Boolean(), nullable=True),
        sa.Column("direction_found", sa.String(length=60), nullable=True),
        sa.Column("mass_per_area_g_m2", sa.Double(), nullable=True),
        sa.Column("thickness_um", sa.Double(), nullable=True),
        sa.Column("density_kg_m3", sa.Double(), nullable=True),
        sa.Column("strength_low_MPa", sa.Double(), nullable=True),
        sa.Column("strength_high_MPa", sa.Double(), nullable=True),
        sa.Column("strength_source", sa.String(length=120), nullable=True),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_material_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_material")),
    )
    with op.batch_alter_table("material", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_material_lesson_id"), ["lesson_id"], unique=False)

    op.create_table(
        "ruling",
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("about_table", sa.String(length=24), nullable=False),
        sa.Column("about_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("detail", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_ruling_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_ruling")),
    )
    with op.batch_alter_table("ruling", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_ruling_lesson_id"), ["lesson_id"], unique=False)

    op.create_table(
        "rung",
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("mark", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.String(length=40), nullable=False),
        sa.Column("printed_mass_g", sa.Double(), nullable=True),
        sa.Column("printed_kind", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_rung_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("lesson_id", "mark", name=op.f("pk_rung")),
    )
    op.create_table(
        "variable",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("role", sa.String(length=24), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("unit", sa.String(length=12), nullable=True),
        sa.Column("value_words", sa.String(length=60), nullable=True),
        sa.Column("instrument", sa.String(length=60), nullable=True),
        sa.Column("division", sa.Double(), nullable=True),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_variable_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_variable")),
    )
    with op.batch_alter_table("variable", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_variable_lesson_id"), ["lesson_id"], unique=False)

    op.create_table(
        "design",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("letter", sa.String(length=1), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("material_id", sa.String(length=36), nullable=True),
        sa.Column("is_yardstick", sa.Boolean(), nullable=False),
        sa.Column("level", sa.Double(), nullable=True),
        sa.Column("level_words", sa.String(length=40), nullable=True),
        sa.Column("strands", sa.Integer(), nullable=True),
        sa.Column("layers", sa.Integer(), nullable=True),
        sa.Column("lay_up", sa.String(length=24), nullable=True),
        sa.Column("direction", sa.String(length=24), nullable=True),
        sa.Column("strip_width_mm", sa.Double(), nullable=True),
        sa.Column("free_length_mm", sa.Double(), nullable=True),
        sa.Column("take_up_factor", sa.Double(), nullable=True),
        sa.Column("linear_density_g_per_m", sa.Double(), nullable=True),
        sa.Column("end_fixing", sa.String(length=24), nullable=True),
        sa.Column("pitch_per_100_mm", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_design_lesson_id_lesson")),
        sa.ForeignKeyConstraint(["material_id"], ["material.id"], name=op.f("fk_design_material_id_material")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_design")),
        sa.UniqueConstraint("lesson_id", "letter", name=op.f("uq_design_lesson_id_letter")),
    )
    with op.batch_alter_table("design", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_design_lesson_id"), ["lesson_id"], unique=False)

    op.create_table(
        "bench",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("word", sa.String(length=20), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("design_id", sa.String(length=36), nullable=False),
        sa.Column("slip_code", sa.String(length=6), nullable=False),
        sa.Column("scale_unit", sa.String(length=24), nullable=False),
        sa.Column("scale_division_mm", sa.Double(), nullable=True),
        sa.Column("scale_way", sa.String(length=24), nullable=False),
        sa.Column("open_again", sa.Boolean(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["design_id"], ["design.id"], name=op.f("fk_bench_design_id_design")),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_bench_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench")),
        sa.UniqueConstraint("lesson_id", "word", name=op.f("uq_bench_lesson_id_word")),
        sa.UniqueConstraint("slip_code", name=op.f("uq_bench_slip_code")),
    )
    with op.batch_alter_table("bench", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_bench_lesson_id"), ["lesson_id"], unique=False)

    op.create_table(
        "prediction",
        sa.Column("bench_id", sa.String(length=36), nullable=False),
        sa.Column("break_force_N", sa.Double(), nullable=True),
        sa.Column("best_design_id", sa.String(length=36), nullable=True),
        sa.Column("shape", sa.String(length=24), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_prediction_bench_id_bench")),
        sa.ForeignKeyConstraint(["best_design_id"], ["design.id"], name=op.f("fk_prediction_best_design_id_design")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_prediction")),
    )
    with op.batch_alter_table("prediction", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_prediction_bench_id"), ["bench_id"], unique=False)

    op.create_table(
        "sentence",
        sa.Column("bench_id", sa.String(length=36), nullable=False),
        sa.Column("topic", sa.String(length=24), nullable=False),
        sa.Column("words", sa.String(length=500), nullable=False),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_sentence_bench_id_bench")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_sentence")),
    )
    with op.batch_alter_table("sentence", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sentence_bench_id"), ["bench_id"], unique=False)

    op.create_table(
        "specimen",
        sa.Column("bench_id", sa.String(length=36), nullable=False),
        sa.Column("specimen_no", sa.Integer(), nullable=False),
        sa.Column("design_id", sa.String(length=36), nullable=False),
        sa.Column("same_maker", sa.Boolean(), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_specimen_bench_id_bench")),
        sa.ForeignKeyConstraint(["design_id"], ["design.id"], name=op.f("fk_specimen_design_id_design")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_specimen")),
        sa.UniqueConstraint("bench_id", "specimen_no", name=op.f("uq_specimen_bench_id_specimen_no")),
    )
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_specimen_bench_id"), ["bench_id"], unique=False)

    op.create_table(
        "tablet",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("bench_id", sa.String(length=36), nullable=False),
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("joined_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ended_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("writes", sa.Boolean(), nullable=False),
        sa.Column("last_heard_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("unsent", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_tablet_bench_id_bench")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tablet")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_tablet_token_hash")),
    )
    with op.batch_alter_table("tablet", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_tablet_bench_id"), ["bench_id"], unique=False)

    op.create_table(
        "tick",
        sa.Column("bench_id", sa.String(length=36), nullable=False),
        sa.Column("what", sa.String(length=24), nullable=False),
        sa.Column("on", sa.Boolean(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_tick_bench_id_bench")),
        sa.PrimaryKeyConstraint("bench_id", "what", name=op.f("pk_tick")),
    )
    op.create_table(
        "weighing",
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("bench_id", sa.String(length=36), nullable=True),
        sa.Column("mark", sa.Integer(), nullable=False),
        sa.Column("mass_g", sa.Double(), nullable=False),
        sa.Column("balance_division_g", sa.Double(), nullable=False),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_weighing_bench_id_bench")),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_weighing_lesson_id_lesson")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_weighing")),
    )
    with op.batch_alter_table("weighing", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_weighing_lesson_id"), ["lesson_id"], unique=False)

    op.create_table(
        "ending",
        sa.Column("specimen_id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("fail_step", sa.Integer(), nullable=True),
        sa.Column("hung_s", sa.Double(), nullable=True),
        sa.Column("place", sa.String(length=24), nullable=True),
        sa.Column("look", sa.String(length=24), nullable=True),
        sa.Column("from_top_knot_mm", sa.Double(), nullable=True),
        sa.Column("remark", sa.String(length=120), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["specimen_id"], ["specimen.entry_id"], name=op.f("fk_ending_specimen_id_specimen")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_ending")),
    )
    with op.batch_alter_table("ending", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_ending_specimen_id"), ["specimen_id"], unique=False)

    op.create_table(
        "event",
        sa.Column("lesson_id", sa.String(length=36), nullable=False),
        sa.Column("bench_id", sa.String(length=36), nullable=True),
        sa.Column("specimen_id", sa.String(length=36), nullable=True),
        sa.Column("step", sa.Integer(), nullable=True),
        sa.Column("after_reading", sa.Boolean(), nullable=False),
        sa.Column("kind", sa.String(length=24), nullable=False),
        sa.Column("mark", sa.Integer(), nullable=True),
        sa.Column("words", sa.String(length=80), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_event_bench_id_bench")),
        sa.ForeignKeyConstraint(["lesson_id"], ["lesson.id"], name=op.f("fk_event_lesson_id_lesson")),
        sa.ForeignKeyConstraint(["specimen_id"], ["specimen.entry_id"], name=op.f("fk_event_specimen_id_specimen")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_event")),
    )
    with op.batch_alter_table("event", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_event_lesson_id"), ["lesson_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_event_specimen_id"), ["specimen_id"], unique=False)

    op.create_table(
        "measure",
        sa.Column("bench_id", sa.String(length=36), nullable=False),
        sa.Column("specimen_id", sa.String(length=36), nullable=True),
        sa.Column("quantity", sa.String(length=24), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("typed", sa.String(length=20), nullable=False),
        sa.Column("unit", sa.String(length=6), nullable=False),
        sa.Column("value", sa.Double(), nullable=False),
        sa.Column("division", sa.Double(), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["bench_id"], ["bench.id"], name=op.f("fk_measure_bench_id_bench")),
        sa.ForeignKeyConstraint(["specimen_id"], ["specimen.entry_id"], name=op.f("fk_measure_specimen_id_specimen")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_measure")),
    )
    with op.batch_alter_table("measure", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_measure_bench_id"), ["bench_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_measure_specimen_id"), ["specimen_id"], unique=False)

    op.create_table(
        "reading",
        sa.Column("specimen_id", sa.String(length=36), nullable=False),
        sa.Column("step", sa.Integer(), nullable=False),
        sa.Column("phase", sa.String(length=24), nullable=False),
        sa.Column("turn", sa.Integer(), nullable=False),
        sa.Column("pointer_typed", sa.String(length=20), nullable=False),
        sa.Column("pointer_unit", sa.String(length=24), nullable=False),
        sa.Column("pointer_mm", sa.Double(), nullable=False),
        sa.Column("waited_s", sa.Double(), nullable=True),
        sa.Column("entry_id", sa.String(length=36), nullable=False),
        sa.Column("replaces", sa.String(length=36), nullable=True),
        sa.Column("reason", sa.String(length=80), nullable=True),
        sa.Column("by", sa.String(length=24), nullable=False),
        sa.Column("tablet_id", sa.String(length=36), nullable=True),
        sa.Column("tablet_time", sa.DateTime(timezone=True), nullable=True),
        sa.Column("age_s", sa.Double(), nullable=False),
        sa.Column("received_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("n", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["specimen_id"], ["specimen.entry_id"], name=op.f("fk_reading_specimen_id_specimen")),
        sa.PrimaryKeyConstraint("entry_id", name=op.f("pk_reading")),
    )
    with op.batch_alter_table("reading", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_reading_specimen_id"), ["specimen_id"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("reading", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_reading_specimen_id"))

    op.drop_table("reading")
    with op.batch_alter_table("measure", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_measure_specimen_id"))
        batch_op.drop_index(batch_op.f("ix_measure_bench_id"))

    op.drop_table("measure")
    with op.batch_alter_table("event", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_event_specimen_id"))
        batch_op.drop_index(batch_op.f("ix_event_lesson_id"))

    op.drop_table("event")
    with op.batch_alter_table("ending", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_ending_specimen_id"))

    op.drop_table("ending")
    with op.batch_alter_table("weighing", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_weighing_lesson_id"))

    op.drop_table("weighing")
    op.drop_table("tick")
    with op.batch_alter_table("tablet", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_tablet_bench_id"))

    op.drop_table("tablet")
    with op.batch_alter_table("specimen", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_specimen_bench_id"))

    op.drop_table("specimen")
    with op.batch_alter_table("sentence", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_sentence_bench_id"))

    op.drop_table("sentence")
    with op.batch_alter_table("prediction", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_prediction_bench_id"))

    op.drop_table("prediction")
    with op.batch_alter_table("bench", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_bench_lesson_id"))

    op.drop_table("bench")
    with op.batch_alter_table("design", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_design_lesson_id"))

    op.drop_table("design")
    with op.batch_alter_table("variable", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_variable_lesson_id"))

    op.drop_table("variable")
    op.drop_table("rung")
    with op.batch_alter_table("ruling", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_ruling_lesson_id"))

    op.drop_table("ruling")
    with op.batch_alter_table("material", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_material_lesson_id"))

    op.drop_table("material")
    op.drop_table("change")
    with op.batch_alter_table("lesson", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_lesson_teacher_id"))

    op.drop_table("lesson")
    op.drop_table("teacher")
    with op.batch_alter_table("failed_try", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_failed_try_from_hash"))

    op.drop_table("failed_try")
