package org.holdfast.desktop;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.Component;
import org.holdfast.construct.ComponentKind.Family;
import org.holdfast.construct.Construct;

/** A construct in one line. */
final class ConstructWords {

    private ConstructWords() {}

    /** Bodies by name, then how many screws and rods; version. */
    static String of(Construct construct) {
        List<String> words = new ArrayList<>();
        construct.components().stream()
                .filter(component -> component.kind().family() == Family.BODY)
                .map(Component::label)
                .forEach(words::add);
        count(construct, Family.SCREW, "screw", words);
        count(construct, Family.ROD, "rod", words);
        return String.join(", ", words) + " · construct version " + construct.version();
    }

    private static void count(Construct construct, Family family, String name, List<String> words) {
        long count = construct.components().stream()
                .filter(component -> component.kind().family() == family)
                .count();
        if (count > 0) {
            words.add(count + " " + name + (count == 1 ? "" : "s"));
        }
    }
}
