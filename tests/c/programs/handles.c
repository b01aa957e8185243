/* Handles of the wrong kind, freed twice, and freed while what was made of them lives on. */
#include "samples.h"

int main(void)
{
    dryfit_error error;
    size_t count = 77;
    dryfit_assembly *assembly = good_assembly();
    dryfit_parts *parts = good_parts();
    dryfit_layout *layout = good_layout();
    dryfit_report *report = good_report();

    /* Each for each other kind. */
    void *const all[] = {assembly, parts, layout, report};
    dryfit_findings findings;
    for (size_t i = 0; i < 4; i++) {
        CHECK(dryfit_assembly_count(all[i], &count, &error) == (i == 0 ? DRYFIT_OK : DRYFIT_WRONG_HANDLE));
        CHECK(i == 0 || strcmp(error.parameter, "assembly") == 0);
        CHECK(dryfit_parts_count(all[i], &count, NULL) == (i == 1 ? DRYFIT_OK : DRYFIT_WRONG_HANDLE));
        CHECK(dryfit_layout_sheets(all[i], &count, NULL) == (i == 2 ? DRYFIT_OK : DRYFIT_WRONG_HANDLE));
        CHECK(dryfit_report_findings(all[i], &findings, NULL) == (i == 3 ? DRYFIT_OK : DRYFIT_WRONG_HANDLE));
        if (i != 1) {
            dryfit_parts *wrong = all[i];
            CHECK(dryfit_parts_free(&wrong) == DRYFIT_WRONG_HANDLE && wrong == all[i]);
        }
    }

    /* Memory that is no handle, and a place where none can stand. */
    static uint64_t zeros[64];
    void *nothing = zeros, *aslant = (char *)zeros + 1;
    dryfit_parts *made_of = NULL;
    CHECK(dryfit_assembly_count(nothing, &count, NULL) == DRYFIT_WRONG_HANDLE);
    CHECK(dryfit_assembly_count(aslant, &count, NULL) == DRYFIT_WRONG_HANDLE);
    CHECK_REFUSED(dryfit_parts_cut(nothing, &sample_cut, &made_of, &error), DRYFIT_WRONG_HANDLE, "assembly");
    CHECK(made_of == NULL);

    /* What fails makes nothing, and changes no pointer. */
    dryfit_cut wrong_cut = sample_cut;
    wrong_cut.cutter.tool = 3;
    made_of = aslant;
    CHECK(dryfit_parts_cut(assembly, &wrong_cut, &made_of, &error) == DRYFIT_OUT_OF_RANGE && made_of == aslant);
    dryfit_stock thin = sample_stock;
    thin.thickness = DRYFIT_MM;
    dryfit_layout *laid = NULL;
    CHECK(dryfit_layout_new(parts, &thin, 1, NULL, NULL, NULL, &laid, &error) == DRYFIT_WRONG_THICKNESS && laid == NULL);
    /* A search that is stopped at once still gives the best so far. */
    calls_left = 0;
    CHECK(dryfit_layout_new(parts, &sample_stock, 1, NULL, go_on, NULL, &laid, &error) == DRYFIT_OK && laid != NULL);
    CHECK(dryfit_layout_sheets(laid, &count, NULL) == DRYFIT_OK && count >= 1 && dryfit_layout_free(&laid) == DRYFIT_OK);
    calls_left = ROOM;

    /* What was made of a handle outlives it. */
    lent.assembly = NULL, lent.parts = NULL;
    CHECK(dryfit_assembly_free(&assembly) == DRYFIT_OK && assembly == NULL && dryfit_assembly_free(&assembly) == DRYFIT_OK);
    CHECK(dryfit_parts_dry_fit(parts, &made.report, NULL) == DRYFIT_OK);
    CHECK(dryfit_parts_free(&parts) == DRYFIT_OK && parts == NULL && dryfit_parts_free(&parts) == DRYFIT_OK);
    CHECK(dryfit_layout_svg(layout, 0, NULL, "x", 1, write_nowhere, NULL, NULL) == DRYFIT_OK);
    CHECK(dryfit_layout_sheet(layout, 1000, &(dryfit_sheet){0}, &error) == DRYFIT_OUT_OF_RANGE);
    CHECK(dryfit_report_findings(made.report, &findings, NULL) == DRYFIT_OK && findings.overlap_max >= 0);

    /* The same two parts twice in one. */
    dryfit_parts *both = NULL;
    CHECK(dryfit_parts_join(good_parts(), good_parts(), &both, NULL) == DRYFIT_OK);
    CHECK(dryfit_parts_count(both, &count, NULL) == DRYFIT_OK && count == 12 && dryfit_parts_free(&both) == DRYFIT_OK);
    let_go();
    return checked();
}
