package org.holdfast.documentation;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * One page of the project's documentation. Immutable.
 *
 * @param path where it lies, from the top of the project
 * @param text its Markdown
 */
public record Page(Path path, String text) {

    private static final Pattern LINK = Pattern.compile("\\]\\(([^)#\\s]+)[^)]*\\)");
    private static final Pattern SHELL_BLOCK = Pattern.compile("```sh\\n(.*?)```", Pattern.DOTALL);

    /** The page at this path. */
    public static Page at(String path) throws IOException {
        Path file = Path.of(path);
        return new Page(file, Files.readString(file, StandardCharsets.UTF_8));
    }

    /** Every page at the top of the project and under docs. */
    static List<Page> all() throws IOException {
        List<Path> files = new ArrayList<>();
        try (Stream<Path> top = Files.list(Path.of(""));
                Stream<Path> docs = Files.walk(Path.of("docs"))) {
            Stream.concat(top, docs)
                    .filter(file -> file.toString().endsWith(".md"))
                    .sorted()
                    .forEach(files::add);
        }
        List<Page> pages = new ArrayList<>();
        for (Path file : files) {
            pages.add(at(file.toString()));
        }
        return pages;
    }

    /** Files and folders of the project that the page links to, from the top of the project. */
    List<Path> linkedFiles() {
        Path folder = path.getParent() == null ? Path.of("") : path.getParent();
        return LINK.matcher(text)
                .results()
                .map(link -> link.group(1))
                .filter(target -> !target.contains("://"))
                .map(target -> folder.resolve(target).normalize())
                .toList();
    }

    /** Commands of the page's shell examples, without comments. */
    public List<String> commands() {
        return SHELL_BLOCK
                .matcher(text)
                .results()
                .flatMap(block -> block.group(1).lines())
                .map(line -> line.replaceFirst("\\s+#.*", "").strip())
                .filter(line -> !line.isEmpty())
                .toList();
    }

    /** The cells of every table row whose first cell is code, without the marks of code. */
    public List<List<String>> tableRowsThatBeginWithCode() {
        return text.lines()
                .filter(line -> line.startsWith("| `"))
                .map(line -> Stream.of(line.split("\\|"))
                        .skip(1)
                        .map(cell -> cell.strip().replace("`", ""))
                        .toList())
                .toList();
    }
}
