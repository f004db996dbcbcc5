/**
 * The build file: one car as YAML with units, read into the records of a {@link linehold.simulator.build.Build}.
 *
 * <p>Bytes become a {@link linehold.simulator.build.YamlTree} that knows every place; the tree is read against the table
 * of keys (BuildKey, and the controller's typed calibration keys); the values are checked against each other; then they
 * become records. The same table writes docs/build-file.md, docs/build-file.schema.json and the starting file.
 *
 * <p>To add a key: one row in BuildKey, its place in BuildAssembly, its contradictions in BuildChecks, its number in the
 * shipped builds; one that only the sizing sheet needs is a row in InstallationKey and nothing more. Then rewrite the
 * pages (GeneratedBuildPagesTest says how).
 */
package linehold.simulator.build;
