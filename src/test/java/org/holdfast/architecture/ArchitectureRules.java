package org.holdfast.architecture;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideOutsideOfPackages;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * The rules of the house for all packages under a root. The root is an argument so that each rule can be seen to fail
 * on a small tree of its own.
 */
final class ArchitectureRules {

    private static final Set<String> BARRED_PACKAGE_NAMES =
            Set.of("model", "util", "utils", "impl", "helper", "manager");
    private static final Set<String> BARRED_CLASS_NAME_PARTS = Set.of("Manager", "Helper", "Utils");

    private static final Set<String> IN_ROOT = Set.of("Main", "package-info");

    private final String root;
    private final PackageTable table;

    ArchitectureRules(String root, PackageTable table) {
        this.root = root;
        this.table = table;
    }

    /** The package uses only what its row allows. */
    ArchRule usesOnlyWhatItsRowAllows(String name) {
        Set<String> allowed = new TreeSet<>(table.mayUse(name));
        allowed.add(name);
        allowed.addAll(PackageTable.FOR_ALL);
        String[] allowedTrees = allowed.stream().map(this::tree).toArray(String[]::new);
        return noClasses()
                .that()
                .resideInAPackage(tree(name))
                .should()
                .dependOnClassesThat(resideInAPackage(root + "..").and(resideOutsideOfPackages(allowedTrees)))
                .as("package '" + name + "' uses nothing of the project but " + allowed)
                .allowEmptyShould(true);
    }

    ArchRule packagesHaveNoCycles() {
        return slices().matching(root + ".(**)").should().beFreeOfCycles().allowEmptyShould(true);
    }

    ArchRule everyPackageHasARow() {
        Set<String> known = table.packages();
        return everyClass("lie in a package that has a row", type -> {
            String name = topPackage(type);
            boolean hasRow = name.isEmpty() ? IN_ROOT.contains(topLevel(type).getSimpleName()) : known.contains(name);
            return hasRow ? Stream.empty() : Stream.of(type.getName());
        });
    }

    /** Classes of a library or of the platform are used only in the packages named. */
    ArchRule onlyIn(String library, String... owners) {
        String[] trees = Arrays.stream(owners).map(this::tree).toArray(String[]::new);
        return noClasses()
                .that(resideInAPackage(root + "..").and(resideOutsideOfPackages(trees)))
                .should()
                .dependOnClassesThat(resideInAnyPackage(library))
                .as("only " + Arrays.toString(owners) + " use " + library)
                .allowEmptyShould(true);
    }

    /**
     * The drawing toolkit of the platform stays in the desktop, but for pictures in memory: pixel codecs in
     * {@code dicom} exchange {@code java.awt.image} types, and one named class of {@code figure} paints on them.
     */
    ArchRule drawingToolkitOnlyInDesktop(String painterInFigure) {
        String painter = root + ".figure." + painterInFigure;
        return everyClass("not use the drawing toolkit outside the desktop", type -> {
            if (topPackage(type).equals("desktop") || topLevel(type).getName().equals(painter)) {
                return Stream.empty();
            }
            String tolerated = topPackage(type).equals("dicom") ? "java.awt.image" : "none";
            return type.getDirectDependenciesFromSelf().stream()
                    .filter(use -> use.getTargetClass().getPackageName().startsWith("java.awt"))
                    .filter(use -> !use.getTargetClass().getPackageName().equals(tolerated))
                    .map(use -> use.getDescription());
        });
    }

    /** A view model can be tested without a toolkit: it knows no node of a scene. */
    ArchRule viewModelsKnowNoNode(String nodeClassName) {
        return noClasses()
                .that()
                .resideInAPackage(root + ".desktop.viewmodel..")
                .should()
                .dependOnClassesThat()
                .areAssignableTo(nodeClassName)
                .allowEmptyShould(true);
    }

    /** Packages are named after a step of the work and classes after what they are. */
    ArchRule namesSayWhatThingsAre() {
        return everyClass("have a name that says what it is", type -> {
            Stream<String> packageNames =
                    Arrays.stream(below(type).split("\\.")).filter(BARRED_PACKAGE_NAMES::contains);
            Stream<String> nameParts = BARRED_CLASS_NAME_PARTS.stream().filter(type.getSimpleName()::contains);
            return Stream.concat(packageNames, nameParts).map(barred -> type.getName() + " holds '" + barred + "'");
        });
    }

    /** Whoever catches everything hides faults; the command parser and the desktop have their one handler each. */
    ArchRule nobodyCatchesEveryException() {
        return everyClass("not catch java.lang.Exception", type -> type.getCodeUnits().stream()
                .filter(unit -> unit.getTryCatchBlocks().stream()
                        .flatMap(block -> block.getCaughtThrowables().stream())
                        .anyMatch(caught -> caught.getName().equals("java.lang.Exception")))
                .map(unit -> unit.getFullName() + " catches java.lang.Exception"));
    }

    /** A rule over all classes under the root; each sentence that {@code violations} gives is one violation. */
    private ArchRule everyClass(String should, Function<JavaClass, Stream<String>> violations) {
        return classes().that().resideInAPackage(root + "..").should(new ArchCondition<>(should) {
            @Override
            public void check(JavaClass type, ConditionEvents events) {
                violations.apply(type).forEach(text -> events.add(SimpleConditionEvent.violated(type, text)));
            }
        });
    }

    private String tree(String name) {
        return name.equals(PackageTable.ENTRY_POINT) ? root : root + "." + name + "..";
    }

    /** The package's name below the root, with its leading dot; empty for the root itself. */
    private String below(JavaClass type) {
        return type.getPackageName().substring(root.length());
    }

    private String topPackage(JavaClass type) {
        return below(type).isEmpty()
                ? PackageTable.ENTRY_POINT
                : below(type).substring(1).split("\\.")[0];
    }

    private static JavaClass topLevel(JavaClass type) {
        return type.getEnclosingClass().map(ArchitectureRules::topLevel).orElse(type);
    }
}
