package org.holdfast.measure;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.holdfast.construct.Component;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.Porous;
import org.holdfast.volume.Comparability;

/**
 * Bone in the pores of a face since the reference exam: fill = ΔHU / (porosity · (bone − fluid)), ΔHU the change of mean HU
 * in the porous layer at the same places, bone the host bone's HU in the later exam. 0 = as on the reference exam, 1 = all
 * pores as dense as the host bone; values under 0 and over 1 are stated as they come. Exploratory: no clinical
 * threshold exists.
 */
final class PorousFillMeasure {

    private static final int MIN_BLOCKS = 4;
    /** The point spread may be off by a tenth (measurement definitions, section 8); what that does is part of the error. */
    private static final double BLURRIER = 1.1;
    /**
     * Share of the fill by which the layer's place is misjudged, since bone that touches draws the implant's edge outwards:
     * found in simulated exams (second draw of ChangeValidation), in which errors beyond those of the blocks grew with fill.
     */
    private static final double MODEL_SHARE = 0.05;
    /** A patch may be laid out so far from its component's surface and still not look like a rim, mm. */
    private static final double LAID_OUT_MM = 0.3;
    /** Shortest stretch of the layer between its margins, mm. */
    private static final double MIN_STRETCH_MM = 0.5;

    private final Component component;
    private final MeasurementSettings settings;
    private final Collection<int[]> blocks;

    /**
     * @param patches samples of each patch of the face, in the order of the face's samples
     */
    PorousFillMeasure(Component component, List<List<PatchSample>> patches, MeasurementSettings settings) {
        this.component = component;
        this.settings = settings;
        this.blocks = blocks(patches);
    }

    /** Squares of the face-on map of each patch, as indices of samples, without the component's rim. */
    private Collection<int[]> blocks(List<List<PatchSample>> patches) {
        double widthMm = settings.porous().blockMm();
        Map<String, List<Integer>> squares = new TreeMap<>();
        int n = 0;
        for (int patch = 0; patch < patches.size(); patch++) {
            for (PatchSample sample : patches.get(patch)) {
                String square =
                        String.format(Locale.ROOT, "%d %d %d", patch, (int) Math.floor(sample.uMm() / widthMm), (int)
                                Math.floor(sample.vMm() / widthMm));
                if (isClearOfRim(sample)) {
                    squares.computeIfAbsent(square, key -> new ArrayList<>()).add(n);
                }
                n++;
            }
        }
        return squares.values().stream()
                .map(list -> list.stream().mapToInt(m -> m).toArray())
                .toList();
    }

    /** Whether no other side of the component lies nearer than the rim's width; the face itself may lie a little off. */
    private boolean isClearOfRim(PatchSample sample) {
        double rim = settings.porous().rimMm();
        return !component.shape().hasDistance()
                || component.shape().signedDistanceMm(sample.point().along(sample.normal(), -rim))
                        <= -rim + LAID_OUT_MM;
    }

    /** The fill of an exam, or why it is not stated. */
    PorousFill compare(ComparedFace reference, ComparedFace later) {
        PorousSettings porous = settings.porous();
        if (component.porous().isEmpty()) {
            return PorousFill.not(component.label() + " has no porous layer");
        }
        Porous layer = component.porous().get();
        if (layer.depthMm() - 2 * porous.layerMarginMm() < MIN_STRETCH_MM) {
            return PorousFill.not(String.format(
                    Locale.ROOT,
                    "the layer of %.1f mm leaves too little between margins of %.1f mm",
                    layer.depthMm(),
                    porous.layerMarginMm()));
        }
        String protocol = Comparability.between(reference.acquisition(), later.acquisition()).stream()
                .filter(d -> d.effect() == Comparability.Effect.NO_HU_COMPARISON)
                .map(Comparability.Difference::sentence)
                .collect(Collectors.joining(" "));
        if (!protocol.isEmpty()) {
            return PorousFill.not(protocol);
        }
        Answer<HuDrift> drift = HuDrift.between(reference, later, component, layer.depthMm());
        if (drift.value().isEmpty()) {
            return PorousFill.not(drift.why());
        }
        return fill(reference, later, layer, drift.value().get());
    }

    private PorousFill fill(ComparedFace reference, ComparedFace later, Porous layer, HuDrift drift) {
        double bone = drift.corrected(boneHu(later, settings.porous().boneFromMm()));
        double contrast = bone - settings.fluidHu();
        if (!(contrast >= settings.porous().minContrastHu())) {
            return PorousFill.not(
                    Double.isNaN(bone)
                            ? "host bone cannot be read"
                            : String.format(
                                    Locale.ROOT, "host bone reads %.0f HU, too near to fluid for a share of it", bone));
        }
        double full = layer.porosity() * contrast;
        List<double[]> found = found(reference, later, layer, drift, 1);
        if (found.size() < MIN_BLOCKS) {
            return PorousFill.not(String.format(
                    Locale.ROOT,
                    "the porous layer is seen, under the scale's ceiling, in %d of %d blocks of the face, %d are needed",
                    found.size(),
                    blocks.size(),
                    MIN_BLOCKS));
        }
        double mean = mean(found);
        double total = found.stream().mapToDouble(f -> f[1]).sum();
        double squares = found.stream()
                .mapToDouble(f -> (f[0] - mean) * (f[0] - mean) * f[1] * f[1] / (total * total))
                .sum();
        double blocksSe = Math.sqrt(squares * found.size() / (found.size() - 1));
        double blurSe = Math.abs(mean(found(reference, later, layer, drift, BLURRIER)) - mean);
        double boneSe = mean * Math.abs(bone - drift.corrected(boneHu(later, middleOfBoneMm()))) / contrast;
        double se = Math.sqrt(blocksSe * blocksSe + blurSe * blurSe + boneSe * boneSe + drift.seHu() * drift.seHu());
        return new PorousFill(Stated.of(mean / full), Stated.of(se / full), Stated.of(drift.hu()), drift.reference());
    }

    /** Change of HU and area of each block that shows it. */
    private List<double[]> found(
            ComparedFace reference, ComparedFace later, Porous layer, HuDrift drift, double blurFactor) {
        List<double[]> found = new ArrayList<>();
        double margin = settings.porous().layerMarginMm();
        for (int[] block : blocks) {
            LayerDifference change =
                    LayerDifference.of(reference, later, block, layer.depthMm(), margin, drift, blurFactor);
            if (change != null) {
                double area = IntStream.of(block)
                        .mapToDouble(n -> later.samples().get(n).areaMm2())
                        .sum();
                found.add(new double[] {change.changeHu(), area});
            }
        }
        return found;
    }

    private static double mean(List<double[]> found) {
        double total = found.stream().mapToDouble(f -> f[1]).sum();
        return found.stream().mapToDouble(f -> f[0] * f[1] / total).sum();
    }

    /** The denser front of the bone may reach into the upper half of the depth; the lower half tells how much that does. */
    private double middleOfBoneMm() {
        return 0.5 * (settings.porous().boneFromMm() + settings.porous().boneToMm());
    }

    /** Median over the face of the median HU from a depth to where bone is read for reference; NaN where it is not seen. */
    private double boneHu(ComparedFace face, double fromMm) {
        PorousSettings porous = settings.porous();
        return Quantiles.median(IntStream.range(0, face.size())
                .filter(n ->
                        !Double.isNaN(face.edgeMm()[n]) && face.cutsMm()[n] >= face.edgeMm()[n] + porous.boneToMm())
                .mapToDouble(
                        n -> face.profiles()[n].median(face.edgeMm()[n] + fromMm, face.edgeMm()[n] + porous.boneToMm()))
                .filter(hu -> !Double.isNaN(hu))
                .toArray());
    }
}
