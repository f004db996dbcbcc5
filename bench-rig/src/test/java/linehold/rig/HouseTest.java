package linehold.rig;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

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
}
