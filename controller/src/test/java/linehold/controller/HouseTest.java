package linehold.controller;

import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import com.tngtech.archunit.library.Architectures;

/** Who may know whom inside the controller. */
@AnalyzeClasses(packages = "linehold.controller", importOptions = ImportOption.DoNotIncludeTests.class)
class HouseTest {
    private static final String ROOT = "linehold.controller";

    @ArchTest
    static final ArchRule ONLY_THE_JDK =
            ArchRuleDefinition.classes().should().onlyDependOnClassesThat().resideInAnyPackage("java..", ROOT + "..");

    @ArchTest
    static final ArchRule NO_CLOCK_THREAD_FILE_OR_LOG = ArchRuleDefinition.noClasses()
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    "java.io..",
                    "java.nio.file..",
                    "java.nio.channels..",
                    "java.net..",
                    "java.time..",
                    "java.util.concurrent..",
                    "java.util.logging..")
            .orShould()
            .dependOnClassesThat()
            .haveFullyQualifiedName(Thread.class.getName())
            .orShould()
            .callMethod(System.class, "nanoTime")
            .orShould()
            .callMethod(System.class, "currentTimeMillis");

    @ArchTest
    static final ArchRule LAYERS = Architectures.layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("tick")
            .definedBy(ROOT + ".tick")
            .layer("root")
            .definedBy(ROOT)
            .layer("switching")
            .definedBy(ROOT + ".switching")
            .layer("safety")
            .definedBy(ROOT + ".safety")
            .layer("speed")
            .definedBy(ROOT + ".speed")
            .layer("signal")
            .definedBy(ROOT + ".signal")
            .layer("calibration")
            .definedBy(ROOT + ".calibration")
            .whereLayer("tick")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("root")
            .mayOnlyBeAccessedByLayers("tick")
            .whereLayer("switching")
            .mayOnlyBeAccessedByLayers("root", "tick")
            .whereLayer("safety")
            .mayOnlyBeAccessedByLayers("root", "tick")
            .whereLayer("speed")
            .mayOnlyBeAccessedByLayers("root")
            .whereLayer("signal")
            .mayOnlyBeAccessedByLayers("root", "switching", "safety", "speed")
            .whereLayer("calibration")
            .mayOnlyBeAccessedByLayers("root", "switching", "safety");

    @ArchTest
    static final ArchRule NO_CYCLES =
            slices().matching(ROOT + ".(*)..").should().beFreeOfCycles();
}
