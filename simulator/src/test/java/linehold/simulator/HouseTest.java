package linehold.simulator;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The house rules of DEVELOPERS.md as far as they concern the simulator. */
@AnalyzeClasses(packages = "linehold", importOptions = ImportOption.DoNotIncludeTests.class)
class HouseTest {
    private static final String PACKAGE = "linehold.simulator.";

    @ArchTest
    static final ArchRule simulatorKnowsOnlyTheController = noClasses()
            .that()
            .resideInAPackage("linehold.simulator..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("linehold.rig..");

    @ArchTest
    static final ArchRule controllerKnowsNobody = noClasses()
            .that()
            .resideInAPackage("linehold.controller..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("linehold.simulator..", "linehold.rig..");

    @ArchTest
    static final ArchRule noPackageCycles =
            slices().matching("linehold.simulator.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule commandsAreImportedByNobodyHere = noClasses()
            .that()
            .resideOutsideOfPackage(PACKAGE + "cli..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage(PACKAGE + "cli..");

    @ArchTest
    static final ArchRule reportsKnowNoPhysics = noClasses()
            .that()
            .resideInAPackage(PACKAGE + "report..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    PACKAGE + "circuit..",
                    PACKAGE + "oil..",
                    PACKAGE + "electrics..",
                    PACKAGE + "drivetrain..",
                    PACKAGE + "numeric..",
                    PACKAGE + "sensor..");

    @ArchTest
    static final ArchRule physicsKnowNoQuestions = noClasses()
            .that()
            .resideInAnyPackage(
                    PACKAGE + "circuit..",
                    PACKAGE + "oil..",
                    PACKAGE + "electrics..",
                    PACKAGE + "drivetrain..",
                    PACKAGE + "numeric..",
                    PACKAGE + "sensor..",
                    PACKAGE + "build..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage(
                    PACKAGE + "run..",
                    PACKAGE + "prove..",
                    PACKAGE + "size..",
                    PACKAGE + "report..",
                    PACKAGE + "cli..");

    @ArchTest
    static final ArchRule physicsUseNoLibrary = classes()
            .that()
            .resideInAnyPackage(
                    PACKAGE + "circuit..",
                    PACKAGE + "oil..",
                    PACKAGE + "electrics..",
                    PACKAGE + "drivetrain..",
                    PACKAGE + "numeric..",
                    PACKAGE + "sensor..")
            .should()
            .onlyDependOnClassesThat(JavaClass.Predicates.resideInAnyPackage("java..", "linehold.."));

    /** Who checks must not have learnt from whom is checked. */
    @ArchTest
    static final ArchRule theCheckerKnowsOnlyTheCertificate = classes()
            .that()
            .resideInAPackage(PACKAGE + "checker..")
            .should()
            .onlyDependOnClassesThat(JavaClass.Predicates.resideInAnyPackage(
                    "java..", PACKAGE + "checker..", PACKAGE + "certificate.."));

    @ArchTest
    static final ArchRule theCertificateKnowsNobody = noClasses()
            .that()
            .resideInAPackage(PACKAGE + "certificate..")
            .should()
            .dependOnClassesThat(JavaClass.Predicates.resideInAPackage("linehold..")
                    .and(DescribedPredicate.not(JavaClass.Predicates.resideInAPackage(PACKAGE + "certificate.."))));

    @ArchTest
    static final ArchRule noWallClock = noClasses()
            .should()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethod(System.class, "nanoTime")
            .orShould()
            .callMethod(java.time.Instant.class, "now")
            .orShould()
            .callMethod(java.time.LocalDateTime.class, "now");

    @ArchTest
    static final ArchRule noUnseededRandomness = noClasses()
            .should()
            .callMethod(Math.class, "random")
            .orShould()
            .callConstructor(java.util.Random.class)
            .orShould()
            .callConstructor(java.util.SplittableRandom.class)
            .orShould()
            .dependOnClassesThat()
            .areAssignableTo(java.util.concurrent.ThreadLocalRandom.class);
}
