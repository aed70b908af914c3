package org.holdfast.architecture;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sees each rule fail on a small tree of trespassers, and only on those that it is meant for. */
final class ArchitectureRulesTest {

    private static final String ROOT = "org.holdfast.architecture.trespass";
    private static final JavaClasses TRESPASSERS = new ClassFileImporter().importPackages(ROOT);
    private static final ArchitectureRules RULES = new ArchitectureRules(ROOT, PackageTable.ofHoldfast());

    /** A class of the tree of trespassers, without the root. */
    private static final Pattern NAME = Pattern.compile(Pattern.quote(ROOT) + "\\.((?:[a-z]+\\.)*[A-Z][A-Za-z]*)");

    @Test
    void seesAPackageReachUp() {
        assertEquals(Set.of("geometry.ReachesUp"), trespassers(RULES.usesOnlyWhatItsRowAllows("geometry")));
    }

    @Test
    void seesAPackageReachUpWhereItsRowAllowsSomething() {
        assertEquals(Set.of("dicom.ReadsBack"), trespassers(RULES.usesOnlyWhatItsRowAllows("dicom")));
        assertEquals(Set.of(), trespassers(RULES.usesOnlyWhatItsRowAllows("intake")));
    }

    @Test
    void seesACycle() {
        String report = report(RULES.packagesHaveNoCycles());
        assertEquals(1, count("Cycle detected", report), report);
        assertEquals(Set.of("dicom.ReadsBack", "intake.ReadsAndIsRead"), named(report), report);
    }

    @Test
    void seesAPackageWithoutARow() {
        assertEquals(Set.of("Loose", "unlisted.Stray"), trespassers(RULES.everyPackageHasARow()));
    }

    @Test
    void seesSqlOutsideTheStore() {
        assertEquals(Set.of("construct.AsksDatabase"), trespassers(RULES.onlyIn("java.sql..", "store")));
    }

    @Test
    void seesTheDrawingToolkitOutsideTheDesktop() {
        assertEquals(
                Set.of("dicom.KnowsColours", "figure.SecondPainter"),
                trespassers(RULES.drawingToolkitOnlyInDesktop("Painter")));
    }

    @Test
    void seesAViewModelThatKnowsANode() {
        assertEquals(
                Set.of("desktop.viewmodel.HoldsButton"),
                trespassers(RULES.viewModelsKnowNoNode(ROOT + ".desktop.view.SceneNode")));
    }

    @Test
    void seesNamesThatSayNothing() {
        assertEquals(Set.of("review.util.Bag", "review.ReadingManager"), trespassers(RULES.namesSayWhatThingsAre()));
    }

    @Test
    void seesWhoCatchesEverything() {
        String report = report(RULES.nobodyCatchesEveryException());
        assertEquals(Set.of("measure.SwallowsAll"), named(report));
        assertEquals(1, count("catches java.lang.Exception", report), report);
    }

    @Test
    void seesAPackageWithoutADescription(@TempDir Path sources) throws IOException {
        Path described = Files.createDirectories(sources.resolve("org/described"));
        Path bare = Files.createDirectories(sources.resolve("org/bare"));
        Files.createFile(described.resolve("package-info.java"));
        Files.createFile(described.resolve("A.java"));
        Files.createFile(bare.resolve("B.java"));
        assertEquals(List.of(bare), PackageDescriptions.missingUnder(sources));
    }

    @Test
    void rowsPointOnlyBackSoThatTheTableItselfHasNoCycle() {
        PackageTable table = PackageTable.ofHoldfast();
        Set<String> earlier = new TreeSet<>(PackageTable.FOR_ALL);
        for (String row : table.rows()) {
            if (!row.equals(PackageTable.ENTRY_POINT)) {
                assertEquals(Set.of(), minus(table.mayUse(row), earlier), row);
                earlier.add(row);
            }
        }
    }

    private static Set<String> minus(Set<String> names, Set<String> taken) {
        Set<String> left = new TreeSet<>(names);
        left.removeAll(taken);
        return left;
    }

    private static String report(ArchRule rule) {
        return String.join("\n", rule.evaluate(TRESPASSERS).getFailureReport().getDetails());
    }

    /** Classes that the rule's report complains about: the first name of each complaint. */
    private static Set<String> trespassers(ArchRule rule) {
        return rule.evaluate(TRESPASSERS).getFailureReport().getDetails().stream()
                .map(NAME::matcher)
                .filter(Matcher::find)
                .map(found -> found.group(1))
                .collect(Collectors.toSet());
    }

    private static Set<String> named(String report) {
        return NAME.matcher(report).results().map(found -> found.group(1)).collect(Collectors.toSet());
    }

    private static int count(String part, String report) {
        return report.split(Pattern.quote(part), -1).length - 1;
    }
}
