package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each rule of docs/construct.md, broken once in the sample document; the message is checked word by word. */
class ConstructRefusalTest {

    private static String refusal(String piece, String put) {
        String json = SampleConstruct.json();
        assertTrue(json.contains(piece), "the sample has no " + piece);
        String broken =
                json.substring(0, json.indexOf(piece)) + put + json.substring(json.indexOf(piece) + piece.length());
        return assertThrows(ConstructReadException.class, () -> ConstructJson.parse(broken, "c.json"))
                .getMessage();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\'',
            textBlock =
                    """
            "format": "holdfast-construct" | "format": "other" | c.json: format: expected "holdfast-construct", got "other"
            "formatVersion": 1 | "formatVersion": 2 | c.json: formatVersion: expected 1, the only one that this software reads, got 2
            "id": "invented-subject" | "id": "Invented" | c.json: id: expected lower-case letters, digits and hyphens ([a-z0-9-]+), got "Invented"
            "version": 3 | "version": 0 | c.json: version: expected a whole number of at least 1, got 0
            "version": 3 | "version": 3.5 | c.json: version: expected a whole number, got the number 3.5
            "version": 3 | "version": 3000000000 | c.json: version: expected a whole number, got the number 3000000000
            "version": 3 | "version": "3" | c.json: version: expected a whole number, got the string "3"
            "2031-02-03" | "03.02.2031" | c.json: operationDate: expected a day as yyyy-mm-dd, got "03.02.2031"
            "2031-02-03" | "2031-02-30" | c.json: operationDate: expected a day as yyyy-mm-dd, got "2031-02-30"
            "2031-02-03" | null | c.json: operationDate: expected a string, got null
            "1.2.826.0.1.3680043.10.1234.5.1" | "1..2" | c.json: referenceSeriesUid: expected a DICOM UID (digits and dots, at most 64 characters), got "1..2"
            "1.2.826.0.1.3680043.10.1234.5.2" | "" | c.json: frameOfReferenceUid: expected a DICOM UID (digits and dots, at most 64 characters), got ""
            "left": [1, 0, 0] | "left": [1, 0.1, 0] | c.json: axes.left: expected a direction of length 1 within 0.001, got [1.0, 0.1, 0.0] of length 1.004987562112089
            "left": [1, 0, 0] | "left": [0.8, 0.6, 0] | c.json: axes.posterior: expected a direction at right angles to left within 0.001, got [0.0, 0.8, 0.6] with the cosine 0.48
            "left": [1, 0, 0] | "left": [-1, 0, 0] | c.json: axes.cranial: expected the direction of left × posterior (right-handed axes), got [0.0, -0.6, 0.8]
            "originMm": [1.5, -20, 310.25] | "originMm": [1.5, -20] | c.json: axes.originMm: expected 3 numbers in a list, got a list of 2 elements
            "originMm": [1.5, -20, 310.25] | "originMm": [1.5, -20, true] | c.json: axes.originMm[2]: expected a finite number, got true
            "originMm": [1.5, -20, 310.25] | "originMm": [1.5, -20, 1e999] | c.json: axes.originMm[2]: expected a finite number, got the number "Infinity"
            "label": "L2" | "label": " " | c.json: bones[1].label: expected words that a reader sees, got " "
            "id": "l2" | "id": "t12" | c.json: bones[1].id: expected an id of its own, got "t12", which bones[0].id has
            "id": "cage" | "id": "sacrum" | c.json: components[3].id: expected an id of its own, got "sacrum", which bones[2].id has
            "id": "body-caudal" | "id": "rod-left" | c.json: interfaces[1].id: expected an id of its own, got "rod-left", which components[2].id has
            "number": 5 | "number": 4 | c.json: components[4].number: expected a number of its own, got 4, which components[3].number has
            "kind": "cage" | "kind": "spacer" | c.json: components[3].kind: expected one of pedicle-screw, iliac-screw, s2-alar-iliac-screw, sacral-screw, body-fixation-screw, hook, main-rod, accessory-rod, satellite-rod, cross-link, rod-to-rod-connector, offset-connector, locking-cap, plate, cage, vertebral-body, pelvic-body, sacral-body, custom-body, strut-graft, cable, cement, other, got "spacer"
            "kind": "cage" | "kind": "iliac-screw" | c.json: components[3].kind: expected a screw given by screw {…}, got iliac-screw
            "kind": "cage" | "kind": "satellite-rod" | c.json: components[3].kind: expected a rod given by rod {…}, got satellite-rod
            "kind": "pedicle-screw" | "kind": "hook" | c.json: components[1].kind: expected a screw, as the geometry is, got hook
            "material": "peek" | "material": "gold" | c.json: components[3].material: expected one of titanium-porous, titanium-solid, cobalt-chromium, steel, tantalum, peek, carbon, graft, cement, unknown, got "gold"
            "material": "titanium-porous" | "material": "titanium-solid" | c.json: components[0].porous: expected no porous layer on titanium-solid (only on titanium-porous or tantalum), got one of porosity 0.7
            "removedOn": "2032-02-10" | "removedOn": "2031-02-02" | c.json: components[1].removedOn: expected a day not before implantedOn 2031-02-03, got 2031-02-02
            "porosity": 0.7 | "porosity": 70 | c.json: components[0].porous.porosity: expected a fraction above 0 and below 1, got 70.0
            "depthMm": 2.5 | "depthMm": 0 | c.json: components[0].porous.depthMm: expected a number above 0, got 0.0
            "radiusMm": 13} | "radiusMm": -13} | c.json: components[0].cylinder.radiusMm: expected a number above 0, got -13.0
            "qMm": [0, 0, 330] | "qMm": [0, 0, 300] | c.json: components[0].cylinder.qMm: expected a point apart from pMm, got [0.0, 0.0, 300.0]
            "tipMm": [10, 0, 345] | "tipMm": [25, 40, 345] | c.json: components[1].screw.tipMm: expected a point apart from headMm, got [25.0, 40.0, 345.0]
            "tipMm": [10, 0, 345], | '' | c.json: components[1].screw.tipMm: expected 3 numbers [x, y, z], got nothing (the field is missing)
            "tipMm": [10, 0, 345] | "tip": [10, 0, 345] | c.json: components[1].screw.tip: expected no such field (known here: headMm, tipMm, diameterMm, bone, inBoneMm), got a list of 3 elements
            "diameterMm": 6.5 | "diameterMm": "6.5" | c.json: components[1].screw.diameterMm: expected a finite number, got the string "6.5"
            "bone": "t12", | "bone": "t13", | c.json: components[1].screw.bone: expected the id of a bone of this construct, got "t13"
            "inBoneMm": [5, 40] | "inBoneMm": [5, 50] | c.json: components[1].screw.inBoneMm: expected 0 ≤ from < to ≤ length 42.720 mm, got [5.0, 50.0]
            "inBoneMm": [5, 40] | "inBoneMm": [40, 5] | c.json: components[1].screw.inBoneMm: expected 0 ≤ from < to ≤ length 42.720 mm, got [40.0, 5.0]
            [[25, 42, 280], [25, 44, 315], [25, 42, 350]] | [[25, 42, 280]] | c.json: components[2].rod.pointsMm: expected at least 2 points, got 1
            [25, 44, 315] | [25, 42, 280] | c.json: components[2].rod.pointsMm[1]: expected a point apart from pointsMm[0], got [25.0, 42.0, 280.0]
            [25, 44, 315] | [25, 44, "x"] | c.json: components[2].rod.pointsMm[1][2]: expected a finite number, got the string "x"
            "axes": [[1, 0, 0], [0, 1, 0], | "axes": [[1, 0, 0], [0, 0.8, 0.6], | c.json: components[3].box.axes[2]: expected a direction at right angles to axes[1] within 0.001, got [0.0, 0.0, 1.0] with the cosine 0.6
            "axes": [[1, 0, 0], [0, 1, 0], | "axes": [[1, 0, 0], | c.json: components[3].box.axes: expected 3 directions, got 2
            "halfMm": [9, 13, 4] | "halfMm": [9, 0, 4] | c.json: components[3].box.halfMm[1]: expected a number above 0, got 0.0
            "meshes/sacral-body.stl" | "../sacral-body.stl" | c.json: components[4].mesh.file: expected a path relative to the document, with /, inside its folder, got "../sacral-body.stl"
            "meshes/sacral-body.stl" | "/sacral-body.stl" | c.json: components[4].mesh.file: expected a path relative to the document, with /, inside its folder, got "/sacral-body.stl"
            "e3b0c442 | "E3B0C442 | c.json: components[4].mesh.sha256: expected 64 lower-case hexadecimal digits, got "E3B0C44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
            "box": { | "screw": 5, "box": { | c.json: components[3]: expected exactly one of screw, rod, box, cylinder, mesh, got screw and box
            "box": { | "boxes": { | c.json: components[3].boxes: expected no such field (known here: id, number, label, kind, material, implantedOn, removedOn, porous, screw, rod, box, cylinder, mesh), got an object
            "to": "rod-left" | "to": "rod-right" | c.json: joins[0].to: expected the id of a component of this construct, got "rod-right"
            "to": "rod-left" | "to": "screw-t12-left" | c.json: joins[0].to: expected another component than from, got "screw-t12-left"
            "kind": "sits-on" | "kind": "runs-in" | c.json: joins[0].kind: expected a kind of join that fits its two parts, got "runs-in" from a pedicle-screw to a main-rod
            "kind": "sits-on" | "kind": "welded" | c.json: joins[0].kind: expected one of sits-on, runs-in, fixes, locks, got "welded"
            "component": "body" | "component": "corpse" | c.json: interfaces[0].component: expected the id of a component of this construct, got "corpse"
            "bone": "l2" | "bone": "cage" | c.json: interfaces[1].bone: expected the id of a bone of this construct, got "cage"
            "filler": "none" | "filler": "bone" | c.json: interfaces[0].filler: expected one of none, autograft, allograft, ceramic, cement, other, unknown, got "bone"
            "patches": [{"kind": "cylinder", "pMm": [0, 0, 302], "qMm": [0, 0, 312], "radiusMm": 13}] | "patches": [] | c.json: interfaces[2].patches: expected at least one, got none
            "patches": [{"kind": "cylinder" | "patches": [5, {"kind": "cylinder" | c.json: interfaces[2].patches[0]: expected an object, got the number 5
            "kind": "sphere" | "kind": "torus" | c.json: interfaces[1].patches[1].kind: expected one of plane, cylinder, sphere, surface, got "torus"
            "kind": "sphere" | "kind": "surface" | c.json: interfaces[1].patches[1]: expected exactly one of triangles, outline, got none
            "shape": "ellipse" | "shape": "circle" | c.json: interfaces[0].patches[0].shape: expected one of rectangle, ellipse, got "circle"
            "normal": [0, 0, 1] | "normal": [0, 0, 1.01] | c.json: interfaces[0].patches[0].normal: expected a direction of length 1 within 0.001, got [0.0, 0.0, 1.01] of length 1.01
            "normal": [0, 0, 1] | "normal": [0, 0.6, 0.8] | c.json: interfaces[0].patches[0].normal: expected a direction at right angles to v within 0.001, got [0.0, 0.6, 0.8] with the cosine 0.6
            "normal": [0, 0, 1] | "normal": [0.6, 0, 0.8] | c.json: interfaces[0].patches[0].normal: expected a direction at right angles to u within 0.001, got [0.6, 0.0, 0.8] with the cosine 0.6
            "v": [0, 1, 0] | "v": [0.6, 0.8, 0] | c.json: interfaces[0].patches[0].v: expected a direction at right angles to u within 0.001, got [0.6, 0.8, 0.0] with the cosine 0.6
            "halfUMm": 13 | "halfUMm": 0 | c.json: interfaces[0].patches[0].halfUMm: expected a number above 0, got 0.0
            "halfAngleDeg": 40 | "halfAngleDeg": 181 | c.json: interfaces[1].patches[1].halfAngleDeg: expected an angle above 0 and at most 180 degrees, got 181.0
            "pole": [0, 0, -1] | "pole": [0, 0, -2] | c.json: interfaces[1].patches[1].pole: expected a direction of length 1 within 0.001, got [0.0, 0.0, -2.0] of length 2.0
            "version": 3 | "version": 3, "note": "x" | c.json: note: expected no such field (known here: format, formatVersion, id, version, operationDate, referenceSeriesUid, frameOfReferenceUid, axes, bones, components, joins, interfaces), got the string "x"
            "joins": [ | "joins": {}, "joins2": [ | c.json: joins2: expected no such field (known here: format, formatVersion, id, version, operationDate, referenceSeriesUid, frameOfReferenceUid, axes, bones, components, joins, interfaces), got a list of 2 elements
            "bones": [ | "bones": 3, "components2": [ | c.json: components2: expected no such field (known here: format, formatVersion, id, version, operationDate, referenceSeriesUid, frameOfReferenceUid, axes, bones, components, joins, interfaces), got a list of 3 elements
            """)
    void saysFieldExpectedAndGot(String piece, String put, String message) {
        assertEquals(message, refusal(piece, put));
    }

    @Test
    void refusesAListThatIsNone() {
        String json = SampleConstruct.json().replaceAll("(?s)\"joins\": \\[.*?\\]", "\"joins\": {}");

        ConstructReadException e =
                assertThrows(ConstructReadException.class, () -> ConstructJson.parse(json, "c.json"));

        assertEquals("c.json: joins: expected a list of objects, got an object", e.getMessage());
        assertEquals("joins", e.path());
        assertEquals("a list of objects", e.expected());
        assertEquals("an object", e.got());
        assertEquals("c.json", e.source());
    }

    @Test
    void refusesAConstructWithoutComponents() {
        String json = SampleConstruct.json()
                .replaceAll("(?s)\"components\": \\[.*\\],\\s*\"joins\"", "\"components\": [], \"joins\"");

        ConstructReadException e =
                assertThrows(ConstructReadException.class, () -> ConstructJson.parse(json, "c.json"));

        assertEquals("c.json: components: expected at least one, got none", e.getMessage());
    }

    @Test
    void refusesARepeatedField() {
        String message = refusal("\"version\": 3", "\"version\": 3, \"version\": 4");

        assertTrue(
                message.startsWith("c.json: expected a JSON document, got Duplicate field 'version' (line 5"), message);
    }

    @Test
    void refusesTextAfterTheDocument() {
        ConstructReadException e = assertThrows(
                ConstructReadException.class, () -> ConstructJson.parse(SampleConstruct.json() + "{}", "c.json"));

        assertTrue(e.getMessage().startsWith("c.json: expected a JSON document, got "), e.getMessage());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\'',
            textBlock =
                    """
            [] | c.json: expected an object, got a list of 0 elements
            '' | c.json: expected an object, got nothing
            null | c.json: expected an object, got null
            "text" | c.json: expected an object, got the string "text"
            """)
    void refusesADocumentThatIsNoObject(String json, String message) {
        ConstructReadException e =
                assertThrows(ConstructReadException.class, () -> ConstructJson.parse(json, "c.json"));

        assertEquals(message, e.getMessage());
    }

    @Test
    void survivesTruncationAtEveryOffset() {
        String json = SampleConstruct.json().stripTrailing();
        for (int length = 0; length < json.length(); length += 7) {
            String cut = json.substring(0, length);
            assertThrows(ConstructReadException.class, () -> ConstructJson.parse(cut, "cut"), cut);
        }
    }

    @Test
    void survivesDeepNesting() {
        String deep = "[".repeat(200_000);

        assertThrows(ConstructReadException.class, () -> ConstructJson.parse(deep, "deep"));
    }
}
