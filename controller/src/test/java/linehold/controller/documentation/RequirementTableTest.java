package linehold.controller.documentation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.reflect.AnnotatedElement;
import java.lang.reflect.Method;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import linehold.controller.Requirement;
import org.junit.jupiter.api.Test;

/** docs/requirements.md: requirement, code that names it, tests that check it. */
class RequirementTableTest {
    private static final Pattern ID = Pattern.compile("LH-[A-Z]{2}-\\d+");
    private static final Pattern LINE = Pattern.compile("\\* (LH-[A-Z]{2}-\\d+) (.+)");

    private static Map<String, String> requirements() throws IOException {
        Map<String, String> all = new LinkedHashMap<>();
        for (String line : Files.readAllLines(Page.root().resolve("docs/controller-requirements.md"))) {
            Matcher matcher = LINE.matcher(line);
            if (matcher.matches()) {
                all.put(matcher.group(1), matcher.group(2));
            }
        }
        return all;
    }

    private static Map<String, SortedSet<String>> code() throws IOException {
        Path sources = Page.root().resolve("controller/src/main/java/linehold/controller");
        Map<String, SortedSet<String>> files = new TreeMap<>();
        try (Stream<Path> paths = Files.walk(sources)) {
            for (Path path :
                    paths.filter(p -> p.toString().endsWith(".java")).sorted().toList()) {
                Matcher matcher = ID.matcher(Files.readString(path));
                while (matcher.find()) {
                    String name = sources.relativize(path).toString().replace('\\', '/');
                    files.computeIfAbsent(matcher.group(), id -> new TreeSet<>())
                            .add(name.replace(".java", ""));
                }
            }
        }
        return files;
    }

    private static List<Class<?>> testClasses() throws IOException, URISyntaxException {
        Path classes = Path.of(RequirementTableTest.class
                .getProtectionDomain()
                .getCodeSource()
                .getLocation()
                .toURI());
        try (Stream<Path> paths = Files.walk(classes)) {
            return paths.map(path -> classes.relativize(path).toString())
                    .filter(name -> name.endsWith("Test.class"))
                    .sorted()
                    .<Class<?>>map(name -> load(name.replace(".class", "").replaceAll("[/\\\\]", ".")))
                    .toList();
        }
    }

    private static Class<?> load(String name) {
        try {
            return Class.forName(name);
        } catch (ClassNotFoundException e) {
            throw new AssertionError(e);
        }
    }

    private static Map<String, SortedSet<String>> tests() throws IOException, URISyntaxException {
        Map<String, SortedSet<String>> tests = new TreeMap<>();
        for (Class<?> type : testClasses()) {
            for (Method method : type.getDeclaredMethods()) {
                // A test method is one that JUnit runs; private helpers and lambdas carry no annotation of JUnit's.
                boolean isTest = Stream.of(method.getAnnotations())
                        .anyMatch(a -> a.annotationType().getName().startsWith("org.junit.jupiter"));
                if (isTest) {
                    String name = type.getSimpleName() + "." + method.getName();
                    ids(type)
                            .forEach(id -> tests.computeIfAbsent(id, x -> new TreeSet<>())
                                    .add(name));
                    ids(method)
                            .forEach(id -> tests.computeIfAbsent(id, x -> new TreeSet<>())
                                    .add(name));
                }
            }
        }
        return tests;
    }

    private static Stream<String> ids(AnnotatedElement element) {
        Requirement requirement = element.getAnnotation(Requirement.class);
        return requirement == null ? Stream.empty() : Stream.of(requirement.value());
    }

    @Test
    void shouldNameOnlyRequirementsThatExist() throws IOException, URISyntaxException {
        assertThat(requirements().keySet()).containsAll(code().keySet()).containsAll(tests().keySet());
    }

    @Test
    void shouldHaveCodeAndTestForEveryRequirement() throws IOException, URISyntaxException {
        for (String id : requirements().keySet()) {
            assertThat(code().containsKey(id)).as("code for %s", id).isTrue();
            assertThat(tests().containsKey(id)).as("test for %s", id).isTrue();
        }
    }

    @Test
    void shouldMatchTheTable() throws IOException, URISyntaxException {
        Map<String, SortedSet<String>> code = code();
        Map<String, SortedSet<String>> tests = tests();
        StringBuilder page = new StringBuilder("# Requirements, code and tests\n\n");
        page.append(
                "Written from the code and the tests; do not edit. Code is named by file under `linehold.controller`; a test");
        page.append(" is listed where it is annotated with the requirement.\n");
        for (Map.Entry<String, String> requirement : requirements().entrySet()) {
            String id = requirement.getKey();
            page.append("\n## ")
                    .append(id)
                    .append("\n\n")
                    .append(requirement.getValue())
                    .append("\n\n");
            page.append("* Code: `")
                    .append(String.join("`, `", code.getOrDefault(id, new TreeSet<>())))
                    .append("`\n");
            page.append("* Tests:\n");
            for (String test : tests.getOrDefault(id, new TreeSet<>())) {
                page.append("  * `").append(test).append("`\n");
            }
        }
        Page.check("requirements.md", page.toString());
    }
}
