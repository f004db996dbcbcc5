package linehold.rig;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The house rules of DEVELOPERS.md as far as they concern the rig and the whole. */
@AnalyzeClasses(packages = "linehold", importOptions = ImportOption.DoNotIncludeTests.class)
class HouseTest {
    @ArchTest
    static final ArchRule appIsImportedByNobody = noClasses()
            .that()
            .resideOutsideOfPackage("linehold.rig.app..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("linehold.rig.app..");

    @ArchTest
    static final ArchRule commandsAreImportedByTheAppAlone = noClasses()
            .that()
            .resideOutsideOfPackages("linehold.rig.app..", "linehold.simulator.cli..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("linehold.simulator.cli..");

    @ArchTest
    static final ArchRule nothingPointsBack = noClasses()
            .that()
            .resideInAnyPackage("linehold.controller..", "linehold.simulator..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("linehold.rig..");

    @ArchTest
    static final ArchRule adaptersNeverImportEachOther =
            slices().matching("linehold.rig.adapter.(*)..").should().notDependOnEachOther();

    @ArchTest
    static final ArchRule onlyTheEdgeTouchesTheWorld = noClasses()
            .that()
            .resideInAnyPackage(
                    "linehold.rig.port..", "linehold.rig.loop..", "linehold.rig.procedure..", "linehold.rig.paper..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("com.pi4j..", "org.eclipse.paho..", "org.sqlite..", "java.sql..", "io.javalin..");

    @ArchTest
    static final ArchRule onlyTheStoreKnowsItsDatabase = noClasses()
            .that()
            .resideOutsideOfPackage("linehold.rig.adapter.store..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.sqlite..", "java.sql..");

    @ArchTest
    static final ArchRule theLoopKnowsPortsAndTheControllerAlone = noClasses()
            .that()
            .resideInAnyPackage("linehold.rig.port..", "linehold.rig.loop..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("linehold.simulator..", "linehold.rig.adapter..", "linehold.rig.board..");

    @ArchTest
    static final ArchRule runsBelongToTheSimulatedCarToProceduresAndToPaper = noClasses()
            .that()
            .resideInAPackage("linehold.rig..")
            .and()
            .resideOutsideOfPackages(
                    "linehold.rig.adapter.simulated..",
                    "linehold.rig.procedure..",
                    "linehold.rig.paper..",
                    "linehold.rig.app..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("linehold.simulator.run..");
}
