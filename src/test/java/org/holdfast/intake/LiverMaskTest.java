package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.cases.CaseFiles;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;
import org.holdfast.dicom.Tag;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.junit.jupiter.api.Test;

/** A published segmentation over a real CT: its voxels' HU and volume, end to end. */
class LiverMaskTest {

    @Test
    void huAndVolumeUnderThePublishedMask() throws Exception {
        Stack stack = Intake.scan(List.of(CaseFiles.path("A_series/dcmqi_ct3")), Progress.NONE)
                .series()
                .get(0)
                .stacks()
                .get(0);
        HuVolume volume = VolumeLoader.load(stack, Progress.NONE).volume();
        List<Double> hu = new ArrayList<>();
        double volumeMm3 = 0;
        DicomFile mask = DicomReader.read(CaseFiles.path("F_sr_seg/liver.dcm"));
        PixelSource pixels = PixelSource.of(mask);
        List<DataSet> frames = mask.dataSet().items(Tag.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
        for (int frame = 0; frame < frames.size(); frame++) {
            int k = sliceAt(volume, frames.get(frame));
            short[] bits = new short[volume.grid().columns() * volume.grid().rows()];
            new PixelReader().read(pixels, frame, bits);
            for (int v = 0; v < bits.length; v++) {
                if (bits[v] == 1) {
                    hu.add(volume.hu(
                            v % volume.grid().columns(), v / volume.grid().columns(), k));
                    volumeMm3 += volume.grid().voxelVolumeMm3(k);
                }
            }
        }
        double mean = hu.stream().mapToDouble(h -> h).average().orElseThrow();
        double variance =
                hu.stream().mapToDouble(h -> (h - mean) * (h - mean)).average().orElseThrow();
        // Computed: two independent toolkits over the same files, matched by position (oracles for the case files,
        // "end-to-end oracle"); printed to four decimals, the volume to three
        assertEquals(107_098, hu.size());
        assertEquals(37.3289, mean, 5e-5);
        assertEquals(59.1688, Math.sqrt(variance), 5e-5);
        assertEquals(-778, hu.stream().mapToDouble(h -> h).min().orElseThrow());
        assertEquals(221, hu.stream().mapToDouble(h -> h).max().orElseThrow());
        assertEquals(70_361.934, volumeMm3, 5e-4);
    }

    /** The slice at a frame's position along the normal: never by the order of frames. */
    private static int sliceAt(HuVolume volume, DataSet frame) {
        double[] position =
                frame.item(Tag.PLANE_POSITION_SEQUENCE).orElseThrow().decimals(Tag.IMAGE_POSITION_PATIENT);
        for (int k = 0; k < volume.grid().slices(); k++) {
            if (Math.abs(volume.grid().sliceOrigin(k).z() - position[2]) < 0.01) {
                return k;
            }
        }
        throw new AssertionError("no slice at " + position[2]);
    }
}
