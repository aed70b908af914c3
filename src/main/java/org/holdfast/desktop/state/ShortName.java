package org.holdfast.desktop.state;

import java.util.LinkedHashMap;
import java.util.Map;

/** A part's label where there is little room: long words of the trade give way to short ones, the level stays. */
public final class ShortName {

    private static final Map<String, String> SHORT = new LinkedHashMap<>();

    static {
        SHORT.put("Vertebral body replacement", "Body");
        SHORT.put("Pedicle screw", "Screw");
        SHORT.put("S2 alar-iliac screw", "S2AI screw");
        SHORT.put("endplate", "endpl.");
        SHORT.put("interface", "interf.");
        SHORT.put("accessory", "acc.");
    }

    private ShortName() {}

    /** The label with long words shortened; a label without any stays as it is. */
    public static String of(String label) {
        String name = label;
        for (Map.Entry<String, String> each : SHORT.entrySet()) {
            name = name.replace(each.getKey(), each.getValue());
        }
        return name;
    }
}
